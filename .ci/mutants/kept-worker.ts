import type { Worker } from 'node:worker_threads'
import { type PoolOptions, type TestProject, ThreadsPoolWorker, type WorkerRequest } from 'vitest/node'

// Vitest starts a thread for each run, which costs ten times what the tests of one mutant take. This pool keeps the
// thread, with what it has loaded from node_modules.
let idle: Worker | undefined
// A run ends before its thread has been handed back: the next one waits for it.
let handedBack = Promise.resolve()

type Listener = Parameters<ThreadsPoolWorker['on']>[1]

export class KeptWorker extends ThreadsPoolWorker {
  override readonly name: string = 'kept'
  private readonly project: TestProject
  private readonly listeners: [string, Listener][] = []
  private reused = false
  private handBack = () => {}

  constructor(options: PoolOptions) {
    super(options)
    this.project = options.project
  }

  override async start() {
    const own = this as unknown as { _thread: Worker | undefined }
    if (own._thread) return
    await handedBack
    handedBack = new Promise((resolve) => {
      this.handBack = resolve
    })
    this.reused = idle !== undefined
    own._thread = idle
    idle = undefined
    if (!this.reused) await super.start()
  }

  override on(event: string, listener: Listener) {
    this.listeners.push([event, listener])
    super.on(event, listener)
  }

  override send(message: WorkerRequest) {
    if (message.type === 'start' && this.reused) return this.answer('started')
    if (message.type === 'stop') return this.answer('stopped')
    // A thread stops by itself at the first failure; that it should would reach it late, in the middle of the next run.
    if ((message as { m?: string }).m === 'onCancel') return
    if (message.type === 'run') {
      // The thread heard the configuration when it started; which tests run is told in it anew.
      const context = message.context as { config?: unknown }
      context.config = this.project.serializedConfig
    }
    super.send(message)
  }

  override async stop() {
    const own = this as unknown as { _thread: Worker | undefined }
    for (const [event, listener] of this.listeners) own._thread?.off(event, listener)
    idle = own._thread
    own._thread = undefined
    this.handBack()
  }

  private answer(type: 'started' | 'stopped') {
    const all = this.listeners.filter(([event]) => event === 'message')
    queueMicrotask(() => {
      for (const [, listener] of all) listener({ type, __vitest_worker_response__: true })
    })
  }
}
