import { gather, type Problem } from '@trainwright/measures'
import type { Problems } from './problems.js'

/** Refusals that are an answer: there is no such cutter, or the head cannot. */
const ANSWERS = ['no-cutter', 'not-owned', 'wrong-range', 'cannot-divide']

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** Where a value that gearcutting names stands in our question: beside the gear, or in it. */
function placed(path: string): string {
  const ours = path
    .replace(/^blank\./, '')
    .replace(/^owned/, 'cutters')
    .replace(/^divisions$/, 'teeth')
  return /^(bore|keyway|wall|cutters|head)\b/.test(ours) ? ours : `gear.${ours}`
}

/** What `read` gives, or the sentence that answers instead; other refusals go to `problems`, and then nothing may come. */
export function answered<T extends object>(problems: Problems, read: () => T): T | string | undefined {
  const found: Problem[] = []
  let answer: T | string | undefined = gather(found, read)
  for (const { path, code, message } of found)
    if (ANSWERS.includes(code)) answer = capital(message)
    else problems.add({ path: placed(path), code, message })
  return answer
}
