import { InputError, type Problem } from '@trainwright/measures'

/** What is told to be wrong when this is asked; nothing when it is answered. Any other error is thrown on. */
export function told(ask: () => unknown): readonly Problem[] {
  try {
    ask()
  } catch (error) {
    if (error instanceof InputError) return error.problems
    throw error
  }
  return []
}
