/** One thing wrong with what was given: where it stands (its `path`, such as `gears[3].teeth`, empty for the whole), a code, a sentence. */
export interface Problem {
  path: string
  code: string
  message: string
}

/** Bad input. `problems` names everything that is wrong, not the first thing only. */
export class InputError extends Error {
  readonly problems: readonly Problem[]

  constructor(problems: readonly Problem[]) {
    super(problems.map((p) => (p.path ? `${p.path}: ${p.message}` : p.message)).join('\n'))
    this.name = 'InputError'
    this.problems = problems
  }
}

/**
 * Runs `read` and returns what it gives; when it throws an InputError, adds its problems to `problems` and returns
 * undefined, so that a check can go on and find the rest. Other errors pass through.
 */
export function gather<T>(problems: Problem[], read: () => T): T | undefined {
  try {
    return read()
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    problems.push(...error.problems)
    return undefined
  }
}
