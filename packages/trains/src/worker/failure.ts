import { InputError, type Problem } from '@trainwright/measures'
import { WorkshopError } from '../workshop-error.js'
import { type AbortReason, abortMessage, lostMessage } from './messages.js'

/** The worker stopped twice on one question: the question was asked again once, and is given up. */
export class TrainWorkerError extends Error {
  override name = 'TrainWorkerError'

  /** @param cause what the second worker stopped of */
  constructor(cause: unknown) {
    super(lostMessage(cause), { cause })
  }
}

export const abortError = (reason: AbortReason): DOMException => new DOMException(abortMessage(reason), 'AbortError')

/** An error as data: structured clone keeps neither its class nor its `problems`. */
export type Failure =
  | { type: 'workshop' | 'input'; problems: readonly Problem[] }
  | { type: 'other'; name: string; message: string; stack?: string | undefined }

export function failureOf(error: unknown): Failure {
  if (error instanceof InputError) {
    return { type: error instanceof WorkshopError ? 'workshop' : 'input', problems: error.problems }
  }
  if (error instanceof Error) {
    return { type: 'other', name: error.name, message: error.message, stack: error.stack }
  }
  return { type: 'other', name: 'Error', message: String(error) }
}

/** The error that was thrown in the worker, of its class, to be thrown here. */
export function errorOf(failure: Failure): Error {
  switch (failure.type) {
    case 'workshop':
      return new WorkshopError(failure.problems)
    case 'input':
      return new InputError(failure.problems)
    case 'other': {
      const { name, message, stack } = failure
      return Object.assign(new Error(message), { name }, stack === undefined ? {} : { stack })
    }
  }
}
