import { layOut } from '@trainwright/trains'
import { describe, expect, it } from 'vitest'
import { demo } from '../demo.js'
import { Answers } from './answers.js'
import { Job } from './job.js'
import { Mounted } from './mounted.js'
import { banjoFrom } from './typed-banjo.js'

const never = () => new Promise<never>(() => {})
const settled = () => new Promise((resolve) => setTimeout(resolve))

async function on(gears: string, banjo = true) {
  const job = new Job(demo(), new Answers({ findTrains: never, layOut: never }))
  const asked: string[] = []
  const mounted = new Mounted(job, {
    layOut: async (lathe, setUp) => {
      asked.push(JSON.stringify(setUp))
      return layOut(lathe, setUp)
    },
  })
  if (banjo) job.put('lathe.banjo', banjoFrom({ swing: [0, 120], slots: [{ from: 30, to: 120 }] }))
  job.put('mounted.gears', gears)
  await settled()
  return { job, mounted, asked }
}

describe('Mounted', () => {
  it('says what the gears on the lathe cut, and how they stand', async () => {
    const { mounted } = await on('24:72 48:80')
    expect(mounted.value).toMatchObject({
      // 1/8 in x 24/72 x 48/80
      cuts: { lead: { n: '127', d: '200' }, hand: 'right' },
      laid: { ok: true, layout: { shafts: [{}, { slot: 0 }, {}] } },
      problems: [],
    })
  })

  it('says what keeps them from standing', async () => {
    const { mounted } = await on('20:30 20:30')
    expect(mounted.value.laid).toMatchObject({ ok: false, obstacle: { code: 'reach' } })
  })

  it('does without a banjo', async () => {
    const { mounted, asked } = await on('20-20-48 32:80', false)
    expect(mounted.value).toMatchObject({ cuts: { hand: 'left' }, laid: null })
    expect(asked).toEqual([])
  })

  it('names the field of what cannot be', async () => {
    const paths = async (...args: Parameters<typeof on>) =>
      (await on(...args)).mounted.value.problems.map(({ path }) => path)
    expect(await paths('24:')).toEqual(['mounted.gears'])
    expect(await paths('24:3')).toEqual(['mounted.gears'])
    const { job, mounted } = await on('24:72')
    job.put('mounted.drive', 3)
    expect(mounted.value).toMatchObject({ cuts: null, problems: [{ path: 'mounted.drive' }] })
  })

  it('leaves what is wrong with the lathe to its own fields', async () => {
    const { job, mounted } = await on('24:72')
    job.put('lathe.leadscrew.pitch', 'x')
    expect(mounted.value).toMatchObject({ cuts: null, laid: null, problems: [] })
  })

  it('asks once for one thing', async () => {
    const { job, asked } = await on('24:72 48:80')
    job.type({ order: 'closest' })
    await settled()
    expect(asked).toHaveLength(1)
  })
})
