import { Store } from './state/store.js'

/**
 * The page for days without network, and newer versions of it: one that has come waits until the person agrees, since
 * the open page still needs its own files.
 */
export class Updates extends Store<boolean> {
  #waiting: ServiceWorker | null = null

  /** `reload` is called when a newer version has taken over. */
  constructor(private readonly reload: () => void) {
    super(false)
  }

  async start(container: ServiceWorkerContainer, script: string): Promise<void> {
    // Whoever has no version yet is taken over by the first without noticing.
    let replaced = container.controller !== null
    container.addEventListener('controllerchange', () => {
      if (replaced) this.reload()
      replaced = true
    })
    try {
      const registration = await container.register(script)
      this.#offer(registration)
      registration.addEventListener('updatefound', () => {
        registration.installing?.addEventListener('statechange', () => this.#offer(registration))
      })
      document.addEventListener('visibilitychange', () => {
        if (!document.hidden) registration.update().catch(() => {})
      })
    } catch {
      // Without it the page works as long as there is a network.
    }
  }

  /** The first version waits a moment, too, and there is none that it could take the place of. */
  #offer({ waiting, active }: ServiceWorkerRegistration): void {
    this.#waiting = active && waiting
    this.set(this.#waiting !== null)
  }

  /** The person agrees. */
  take(): void {
    this.#waiting?.postMessage({ type: 'SKIP_WAITING' })
  }
}
