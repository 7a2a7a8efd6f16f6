import { execFileSync } from 'node:child_process'
import { beforeAll, expect, test } from 'vitest'
import { banjo, hard, sets, wishes } from '../../bench/questions.js'
import demo from '../../test-data/demo-workshop.json' with { type: 'json' }
import { findChromium } from '../chromium.js'
import { launchChromium } from '../launch-chromium.js'
import { oneModule } from '../one-module.js'

/*
 * The same questions, answered by the same packages in a fresh Node, in the same one again, and in a browser: the same
 * bytes. Everything that is rounded, ranked or looked for in an order would show here.
 */

const ask = new URL('ask.js', import.meta.url).pathname

/** Mulberry32: numbers from 0 to 1, the same for ever. */
function seeded(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}
const random = seeded(20260101)
const whole = (least: number, most: number): number => least + Math.floor(random() * (most - least + 1))
const mm = (least: number, most: number): number => whole(least * 10, most * 10) / 10
const one = <T>(...all: T[]): T => all[whole(0, all.length - 1)]!
const pitch = () =>
  one('1 mm', '0.7 mm', '26 tpi', '1/16 in', '0.66 mm', '0.3 module', '48 dp', `${whole(40, 300)}/${whole(90, 200)}`)

function job() {
  const centreDistance = mm(70, 140)
  const slot = (angle: number) => ({ angle, offset: one(0, mm(-6, 6)), from: mm(15, 40), to: mm(50, 130) })
  const lathe = {
    leadscrew: { pitch: one('8 tpi', '1.5 mm', '3 mm'), hand: one('right', 'left') },
    drives: one([{ ratio: 1 }], [{ ratio: 1 }, { name: 'tumbler', ratio: '1/2', reverses: true }]),
    studs: whole(1, 3),
    ...one({}, { shaftClearance: mm(8, 16) }),
    ...one(
      {},
      { centreDistance },
      {
        centreDistance,
        banjo: {
          pivot: one('output', 'input'),
          swing: [whole(-60, 0), whole(20, 120)],
          slots: [slot(0), slot(whole(20, 70))],
        },
      },
      {
        centreDistance,
        banjo: {
          swing: [-30, 100],
          slots: [slot(0)],
          keepOut: [{ x: mm(-40, 40), y: mm(-60, 60), radius: mm(3, 12) }],
        },
      },
    ),
  }
  const gears = Array.from({ length: whole(8, 14) }, () => ({ teeth: whole(20, 80) }))
  const wanted = {
    pitch: pitch(),
    hand: one('right', 'left'),
    starts: one(1, 1, 2),
    tolerance: { ppm: one(500, 3000, 50_000) },
  }
  return { call: 'job', args: [{ lathe, gears }, wanted, { limit: 5, order: one('closest', 'fewest gears') }] }
}

const questions = [
  ...['12', '20', '40'].map((name) => ({ call: 'job', args: sets(name) })),
  { call: 'job', args: hard() },
  ...['roomy', 'tight'].map((kind) => ({ call: 'job', args: banjo(kind, '20') })),
  { call: 'proposeGears', args: wishes('12') },
  { call: 'makeChart', args: wishes('12') },
  ...['1 mm', '26 tpi', '0.66 mm', '0.5 module'].map((pitch) => ({
    call: 'job',
    args: [demo.workshop, { pitch }, {}],
  })),
  ...Array.from({ length: 40 }, job),
  ...[17, 23, 63, 127].map((teeth) => ({ call: 'gear', args: [{ teeth, module: 1, bore: 8, shift: 0.1 }] })),
  ...['metric', 'whitworth', 'ba', 'loewenherz'].map((form) => ({
    call: 'thread',
    args: [{ form, pitch: '1 mm', major: 7.3 }],
  })),
]

let code: string
let first: string[]
/** Answers of a Node of its own, which asks as often as told. */
const inNode = (times: number): string[] =>
  JSON.parse(
    execFileSync(process.execPath, ['--input-type=module'], {
      input: `${code}\nlet all = []\nfor (let i = 0; i < ${times}; i++) all = globalThis.answers(${JSON.stringify(questions)})\nconsole.log(JSON.stringify(all))`,
      maxBuffer: 100_000_000,
      encoding: 'utf8',
    }),
  )

/** Where answers differ from the first ones: the question, and what stands around the first letter. */
const differing = (others: readonly string[]) =>
  first.flatMap((answer, i) => {
    const other = others[i] ?? ''
    if (answer === other) return []
    const at = [...answer].findIndex((letter, k) => letter !== other[k])
    const around = (text: string) => text.slice(Math.max(0, at - 100), at + 60)
    return [{ question: i, first: around(answer), other: around(other) }]
  })

beforeAll(async () => {
  // From the packages as they were built.
  code = await oneModule(`import { answers } from ${JSON.stringify(ask)}; globalThis.answers = answers`)
  first = inNode(1)
})

test('the questions are answered, and most of them with a train', () => {
  expect(first).toHaveLength(questions.length)
  const has = (text: string) => first.filter((answer) => answer.includes(text)).length
  expect(has('"lead":')).toBeGreaterThan(30)
  expect(has('"swing":')).toBeGreaterThan(8)
  expect(has('"layout":{')).toBeGreaterThan(8)
  expect(has('LWPOLYLINE')).toBe(4)
  expect(has('Error"')).toBeLessThan(10)
  expect(new Set(first).size).toBeGreaterThan(questions.length - 8)
})

test('the same bytes when asked again, in another process', () => {
  expect(differing(inNode(2))).toEqual([])
})

test.skipIf(!findChromium() && process.env.CI !== 'true')('the same bytes in a browser', async () => {
  const browser = await launchChromium()
  try {
    const page = await browser.newPage()
    await page.addScriptTag({ content: code, type: 'module' })
    const theirs = await page.evaluate(
      (questions) => (globalThis as unknown as { answers(all: unknown): string[] }).answers(questions),
      questions,
    )
    expect(differing(theirs)).toEqual([])
  } finally {
    await browser.close()
  }
})
