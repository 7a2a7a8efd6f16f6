import { readFileSync } from 'node:fs'

/** The rows of a table of this folder whose fields are parted by semicolons, by the names in its first line. */
export function rows(file: string): Record<string, string>[] {
  const text = readFileSync(new URL(file, import.meta.url), 'utf8').trim()
  const [names, ...lines] = text.split('\n').map((line) => line.split(';'))
  return lines.map((fields) => Object.fromEntries(names.map((name, i) => [name, fields[i]])))
}
