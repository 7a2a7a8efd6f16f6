// Removes from packages/*/dist what was built of sources that are gone: it would be published, and nobody would miss it.
import { existsSync, readdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'

const packages = new URL('../packages', import.meta.url).pathname
for (const name of readdirSync(packages)) {
  const dist = join(packages, name, 'dist')
  if (!existsSync(dist)) continue
  for (const file of readdirSync(dist, { recursive: true }).map(String)) {
    const source = file.replace(/(\.d\.ts|\.js)$/, '.ts')
    if (source !== file && !existsSync(join(packages, name, 'src', source))) rmSync(join(dist, file))
  }
}
