import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseRatio } from '@trainwright/measures'
import { afterAll, describe, expect, it, vi } from 'vitest'
import { fraction, fromRational } from './fraction.js'
import { gearSets } from './gear-sets.js'
import { countByLoops, countSetsByLoops, physicalGears } from './nested-loops.js'
import { setsData } from './sets-data.js'
import { readShop } from './shop.js'

// Plain means slow: more than five seconds on a busy machine.
vi.setConfig({ testTimeout: 60_000 })

const forty =
  '20x2 22 24x2 25 26 28 30x2 32 34 35 36 38 40x2 42 44 45 46 48 50 52 54 55 56 58 60x2 63 65 70 75 80 85 90 95 100 127'
const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url))
const has = (program: string): boolean => spawnSync(program, ['--version']).status === 0
const scratch = mkdtempSync(join(tmpdir(), 'plain-'))
afterAll(() => rmSync(scratch, { recursive: true }))

const setsExactly = (box: string, ratio: string, ppm: number, stages: number): number[] => {
  const gears = physicalGears(box).map((teeth) => ({ teeth }))
  const shop = readShop({ lathe: { leadscrew: { pitch: '1' } }, gears })
  const sizes = [...gearSets(shop, fromRational(parseRatio(ratio)), stages, fraction(ppm, 1_000_000))]
  return Array.from({ length: stages }, (_, s) => sizes.filter(({ drivers }) => drivers.length === s + 1).length)
}

describe('nested loops over physical gears', () => {
  it('counts what hands count', () => {
    // 20, 20, 40, 40: 1/2 by either 20 with either 40, 4 ways. Of two stages the drivers 20, 20 have 40, 40 left
    // (1/4), 20, 40 have 20, 40 left (1) in 4 ways, and 40, 40 have 20, 20 left (4).
    const z = physicalGears('20x2 40x2')
    expect(countByLoops(z, 1 / 2, 0, 2)).toEqual([4, 0])
    expect(countByLoops(z, 1 / 4, 0, 2)).toEqual([0, 1])
    // Ratio 1 with one stage: 20:20 and 40:40, each two ways round.
    expect(countByLoops(z, 1, 0, 2)).toEqual([4, 4])
    expect(countSetsByLoops(z, 1, 0, 2)).toEqual([2, 0])
    // Six gears of 2, 3, 4, 5, 7, 30 teeth: only 3, 5, 7 : 2, 4, 30 makes 105/240.
    expect(countByLoops(physicalGears('2 3 4 5 7 30'), 105 / 240, 0, 3)).toEqual([0, 0, 1])
  })

  it('finds the sets that exact fractions find', () => {
    expect(countSetsByLoops(physicalGears(forty), 254 / 195, 500, 2)).toEqual([0, 135])
    // 135 and 11,911 were counted by other programs as well; the constraint solver below finds them too.
    expect(setsExactly(forty, '254/195', 500, 3)).toEqual([0, 135, 11911])
    const twelve = '20 25 30 35 40 45 50 55 60 65 70 80'
    expect(setsExactly(twelve, '254/195', 500, 3)).toEqual(countSetsByLoops(physicalGears(twelve), 254 / 195, 500, 3))
  })

  it.skipIf(!has('g++'))('counts the same in C++', () => {
    const program = join(scratch, 'loops')
    execFileSync('g++', ['-O1', '-std=c++17', '-o', program, here('nested-loops.cpp')])
    const said = JSON.parse(execFileSync(program, ['254/195', '500', '2', ...forty.split(' ')], { encoding: 'utf8' }))
    expect(said.physical).toEqual(countByLoops(physicalGears(forty), 254 / 195, 500, 2))
    expect(said.sets).toEqual([0, 135])
  })

  it.skipIf(!has('minizinc'))('lists the same sets by constraint solver', () => {
    const data = join(scratch, 'sets.dzn')
    writeFileSync(data, setsData(physicalGears(forty), 254, 195, 500, 2))
    const args = ['--solver', 'gecode', '-a', here('sets.mzn'), data]
    const said = execFileSync('minizinc', args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] })
    const lines = said.split('\n').filter((line) => line.startsWith('['))
    expect([lines.length, new Set(lines).size]).toEqual([135, 135])
  })
})
