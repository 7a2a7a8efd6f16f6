/** All wording of the worker's own failures; the engine's cross as they are. */

const reasons = {
  superseded: 'A newer question took the place of this one.',
  aborted: 'The question was taken back.',
  closed: 'The train worker is closed.',
}
export type AbortReason = keyof typeof reasons

export const abortMessage = (reason: AbortReason): string => reasons[reason]

export const silentMessage = (milliseconds: number): string =>
  `The search worker gave no sign of life within ${milliseconds / 1000} s.`

const told = (cause: unknown): string =>
  cause instanceof Error && cause.message ? cause.message : 'it gave no reason.'

export const lostMessage = (cause: unknown): string =>
  `The search worker stopped, was replaced, and stopped again on the same question: ${told(cause)}`

export const unservedMessage = (kind: string): string => `This worker does not answer ${kind}.`
