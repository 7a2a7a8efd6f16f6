import { execFileSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'

test('the demo in the terminal solves every thread as a person would set it up, and ends', () => {
  const demo = fileURLToPath(new URL('../terminal/demo.js', import.meta.url))
  const said = execFileSync(process.execPath, [demo], { encoding: 'utf8' })
  expect(said).toContain('A, input shaft: 24 teeth in plane 1, drives B; turns clockwise')
  expect(said).toContain('Cuts a right-hand thread, lead 0.635 mm (40 tpi); exact.')
  expect(said).toContain('+125 ppm, 3.13 µm long over 25 mm')
  expect(said).toContain('Cuts a left-hand thread')
  expect(said).toContain('No train goes on within tolerance.')
  expect(said).toMatch(/make one of \d+ teeth/)
  expect(said).toContain('Turn the blank to: 28.000 mm (1.1024 in)')
  expect(said).toContain('npm run page opens the page.')
})
