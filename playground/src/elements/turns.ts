/** ms of drawing after which the browser is let to see what the person and the worker have to say. */
const SLICE = 10

const { port1, port2 } = new MessageChannel()
const waiting: (() => void)[] = []
port1.onmessage = () => waiting.shift()!()

/** Lets the browser do what has come up meanwhile. */
export const breathe = (): Promise<void> =>
  new Promise((done) => {
    waiting.push(done)
    port2.postMessage(null)
  })

let last: Promise<void> = Promise.resolve()
let began = Number.NEGATIVE_INFINITY

/**
 * Settles when it is the caller's turn to draw. Turns are taken in the order in which they were asked for, as many at a
 * time as fit into a slice: a page drawn in one go would keep the person and the worker waiting.
 */
export function turn(): Promise<void> {
  last = last.then(async () => {
    if (performance.now() - began < SLICE) return
    await breathe()
    began = performance.now()
  })
  return last
}

/** Settles when everybody has had their turn, and those they brought along, too. */
export async function allDrawn(): Promise<void> {
  for (let seen: Promise<void> | undefined; seen !== last; await breathe()) {
    seen = last
    await seen
  }
}
