export { baLimits } from './ba-limits.js'
export type { ExactLength } from './checks.js'
export { type Cut, type Infeed, infeed, type Nose, type Pass, passes, threadCut } from './cutting.js'
export { type ThreadDimensions, type ThreadQuestion, threadDimensions } from './dimensions.js'
export { findThread } from './find.js'
export { type Form, type FormInfo, type FormName, forms, type OwnForm } from './forms.js'
export { chasingDial, type DialAnswer, type DialQuestion, scratchPass } from './half-nuts.js'
export { isoLimits, type Limits, type LimitsQuestion } from './iso-limits.js'
export {
  type LeadErrorVerdict,
  type LeadTolerance,
  leadErrorEffect,
  leadErrorVerdict,
  leadTolerance,
  leadToleranceOfClass,
} from './lead-error.js'
export { type Chamfer, homeMadeTap, type Tap, type TappingDrill, tappingDrill } from './mating.js'
export type { Caution, CautionCode } from './messages.js'
export {
  type Measured,
  type Measurements,
  type Recognition,
  recogniseThread,
  recognitionVerdict,
} from './recognise.js'
export { directionOfTravel, runOutGroove, threadingSpeeds } from './run-out.js'
export { type SeriesThread, series, seriesNames } from './series.js'
export { indexStarts, type Start } from './starts.js'
export {
  effectiveFromWires,
  leadCorrection,
  nearestWire,
  overWires,
  type WireCorrection,
  type WireQuestion,
  type WireSizes,
  wireSizes,
} from './wires.js'
