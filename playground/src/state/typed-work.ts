import type { ThreadWork } from '@trainwright/sheet'
import type { FormName } from '@trainwright/threads'

/** What a person measured on a sample, and by how much it may be out either way. */
export interface TypedMeasure {
  value: string
  doubt: string
}

export const MEASURES = ['major', 'effective', 'pitch', 'angle'] as const
export type Measure = (typeof MEASURES)[number]

export const FORMS = [
  'metric',
  'unified',
  'whitworth',
  'ba',
  'trapezoidal',
  'acme',
  'loewenherz',
  'square',
  'sharp-v',
  'own',
] as const satisfies readonly (FormName | 'own')[]

export const FLUTES = ['2', '3', '4'] as const

/** The thread besides its pitch, as it was typed. All of it may stay blank: the train asks for none of it. */
export interface TypedWork {
  form: (typeof FORMS)[number] | ''
  /** Included angle in degrees, truncation as parts of the sharp height. */
  own: { angle: string; crest: string; root: string }
  /** Which diameter is known. */
  by: 'major' | 'effective'
  diameter: string
  cut: 'screw' | 'nut'
  engagement: string
  limits: 'none' | 'class' | 'allowance'
  class: string
  allowance: string
  compound: string
  groove: string
  /** Width of the tool along the work. */
  tool: string
  nose: { shape: 'form' | 'flat' | 'radius'; size: string }
  crest: 'form' | 'sharp'
  /** How the passes are counted: by the pitch, by number, or by the first cut. */
  passes: { by: 'pitch' | 'count' | 'first cut'; count: string; firstCut: string; spring: string }
  /** What is wanted of the mating part. */
  mate: { part: boolean; tap: boolean; flutes: (typeof FLUTES)[number] }
  measured: Record<Measure, TypedMeasure>
}

export const blankWork = (): TypedWork => ({
  form: '',
  own: { angle: '', crest: '', root: '' },
  by: 'major',
  diameter: '',
  cut: 'screw',
  engagement: '',
  limits: 'none',
  class: '',
  allowance: '',
  compound: '',
  groove: '',
  tool: '',
  nose: { shape: 'form', size: '' },
  crest: 'form',
  passes: { by: 'pitch', count: '', firstCut: '', spring: '' },
  mate: { part: false, tap: false, flutes: '4' },
  measured: {
    major: { value: '', doubt: '0.02 mm' },
    effective: { value: '', doubt: '0.02 mm' },
    pitch: { value: '', doubt: '0.02 mm' },
    angle: { value: '', doubt: '1' },
  },
})

const text = (x: number | undefined): string => (x === undefined ? '' : String(x))

function noseFrom(nose: ThreadWork['nose']): TypedWork['nose'] {
  if (!nose) return blankWork().nose
  return 'flat' in nose ? { shape: 'flat', size: text(nose.flat) } : { shape: 'radius', size: text(nose.radius) }
}

/** The thread besides its pitch as a person would have typed it. */
export function workFrom(work: ThreadWork): TypedWork {
  const { form, major, effective, class: name, allowance, passes, firstCut, mate } = work
  const blank = blankWork()
  const own = typeof form === 'string' ? null : form
  const tap = typeof mate?.tap === 'object' ? mate.tap : {}
  return {
    ...blank,
    form: typeof form === 'string' ? form : 'own',
    own: { angle: text(own?.angle), crest: text(own?.crest), root: text(own?.root) },
    by: effective === undefined ? 'major' : 'effective',
    diameter: text(effective ?? major),
    cut: work.cut ?? blank.cut,
    engagement: text(work.engagement),
    limits: name !== undefined ? 'class' : allowance !== undefined ? 'allowance' : 'none',
    class: name ?? '',
    allowance: text(allowance),
    compound: text(work.compound),
    groove: text(work.groove),
    tool: text(work.tool),
    nose: noseFrom(work.nose),
    crest: work.crest ?? blank.crest,
    passes: {
      by: passes !== undefined ? 'count' : firstCut !== undefined ? 'first cut' : 'pitch',
      count: text(passes),
      firstCut: text(firstCut),
      spring: text(work.springPasses),
    },
    mate: { part: mate?.part ?? false, tap: Boolean(mate?.tap), flutes: `${tap.flutes ?? 4}` as const },
  }
}
