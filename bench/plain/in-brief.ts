import type { GearStock, Lathe, Train, Workshop } from '@trainwright/trains'

/** One gear of each of these counts. */
export const box = (...teeth: number[]): GearStock[] => teeth.map((t) => ({ teeth: t }))

/** A workshop with a leadscrew of 1 mm and what else is told of the lathe. */
export const shop = (gears: GearStock[], lathe: Partial<Lathe> = {}): Workshop => ({
  lathe: { leadscrew: { pitch: '1 mm' }, ...lathe },
  gears,
})

/** '30-50-60 40-80': driver, idlers, driven of each stage. */
export const spell = ({ stages }: Pick<Train, 'stages'>): string =>
  stages.map((s) => [s.driver, ...s.idlers, s.driven].map((g) => g.teeth).join('-')).join(' ')

/** What goes wrong in a call, as 'path code' of each problem, sorted; fails when nothing does, or something else. */
export function problemsOf(ask: () => unknown): string[] {
  try {
    ask()
  } catch (error) {
    const { problems } = error as { problems?: { path: string; code: string }[] }
    if (!problems) throw error
    return problems.map(({ path, code }) => `${path} ${code}`)
  }
  throw new Error('it was taken')
}
