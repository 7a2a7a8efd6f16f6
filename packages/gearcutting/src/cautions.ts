/** Something to mind: a code, a sentence, and where it is known from. */
export interface Caution {
  code: string
  message: string
  /** The work that gives it, or 'common practice, no source'. */
  source: string
}

const ARMY = 'US Army TM 1-1500-204-23-8'
const NAVY = 'US Navy, machinery training manual (Engineman), lathe safety'
const PRACTICE = 'common practice, no source'

/**
 * What to mind when a gear is cut, to be shown with any plan or outline. They do not replace the manual of the machine,
 * local rules or training.
 */
export const gearCuttingCautions: readonly Caution[] = [
  {
    code: 'manual',
    message: "The machine's own manual, the rules posted at it, local codes and licensed practice come first.",
    source: `${NAVY} (posted rules); the rest ${PRACTICE}`,
  },
  { code: 'eyes', message: 'Wear goggles or a face shield at and near the running machine.', source: NAVY },
  {
    code: 'clothing',
    message:
      'Roll up sleeves, take off watch, rings and jewellery; tie back hair and wear no gloves at a turning cutter.',
    source: `${NAVY}; hair and gloves: ${PRACTICE}`,
  },
  {
    code: 'guards',
    message: 'Guards on cutter, belts and gears stay in place while anything turns.',
    source: `${ARMY}, p. 2-2`,
  },
  {
    code: 'isolate',
    message: 'Stop the machine and switch off its power before you set it up, adjust, measure, oil or clean.',
    source: `${ARMY}, p. 2-2`,
  },
  {
    code: 'secure',
    message:
      'Clamp blank, mandrel and head so that nothing can shift, and see that clamps and bolts pass clear of arbor and cutter.',
    source: `${ARMY}, p. 2-3`,
  },
  {
    code: 'withdraw',
    message: 'Wind the work clear of the turning cutter before it is moved, indexed or run back.',
    source: `${ARMY}, p. 2-3`,
  },
  {
    code: 'feed',
    message: 'Do not change feed or speed while the cutter is in the work; keep the cutter sharp.',
    source: `${ARMY}, p. 2-3 (keen tools: of lathes)`,
  },
  {
    code: 'chips',
    message: 'Clear chips with a brush or stick, the machine stopped; never with bare hands.',
    source: NAVY,
  },
  {
    code: 'dust',
    message:
      'Keep dust of cast iron, brass, fibre board and plastics out of the lungs: extract it or wear a mask. Laser and hot plastic give off fumes: vent them, and cut no PVC.',
    source: PRACTICE,
  },
  {
    code: 'burrs',
    message: 'Fresh teeth are sharp: take off the burrs before you handle or mount the gear.',
    source: PRACTICE,
  },
]
