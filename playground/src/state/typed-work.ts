import type { FormName } from '@trainwright/threads'

/** What a person measured on a sample, and by how much it may be out either way. */
export interface TypedMeasure {
  value: string
  doubt: string
}

export const MEASURES = ['major', 'effective', 'pitch', 'angle'] as const
export type Measure = (typeof MEASURES)[number]

/** The thread besides its pitch, as it was typed. All of it may stay blank: the train asks for none of it. */
export interface TypedWork {
  form: FormName | 'own' | ''
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
  mate: { part: boolean; tap: boolean }
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
  mate: { part: false, tap: false },
  measured: {
    major: { value: '', doubt: '0.02 mm' },
    effective: { value: '', doubt: '0.02 mm' },
    pitch: { value: '', doubt: '0.02 mm' },
    angle: { value: '', doubt: '1' },
  },
})
