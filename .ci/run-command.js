import { spawn } from 'node:child_process'

/** @type {Set<number>} */
const running = new Set()

/** Ends a command with everything that it started. @param {number} leader */
const end = (leader) => {
  try {
    process.kill(-leader, 'SIGKILL')
  } catch {
    // It has ended meanwhile.
  }
}

for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) {
  process.once(signal, () => {
    running.forEach(end)
    process.exit(1)
  })
}

/**
 * Runs a shell command in a process group of its own, with its output on ours, and ends it when it takes too long:
 * a hanging test must not hang the run.
 * @param {string} command
 * @param {number} minutes
 * @returns {Promise<boolean>} whether it ended in time and without an error
 */
export function run(command, minutes) {
  return new Promise((resolve) => {
    const child = spawn(command, { shell: true, detached: true, stdio: ['ignore', 'inherit', 'inherit'] })
    const leader = child.pid
    if (leader === undefined) return resolve(false)
    running.add(leader)
    const late = setTimeout(() => {
      console.log(`ended after ${minutes} minutes: ${command}`)
      end(leader)
    }, minutes * 60_000)
    child.once('exit', (code) => {
      clearTimeout(late)
      running.delete(leader)
      resolve(code === 0)
    })
  })
}
