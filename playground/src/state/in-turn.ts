/** Calls one after another, for those who share a lane in which a newer call takes the place of an older. */
export function inTurn<A extends unknown[], R>(ask: (...args: A) => Promise<R>): (...args: A) => Promise<R> {
  let last: Promise<unknown> = Promise.resolve()
  return (...args) => {
    const mine = last.then(() => ask(...args))
    last = mine.catch(() => {})
    return mine
  }
}
