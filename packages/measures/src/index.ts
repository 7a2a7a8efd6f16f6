export { type Length, type LengthText, parseLength } from './length.js'
export { exactly, tidy } from './number-text.js'
export {
  exactMillimetres,
  INCH,
  PI,
  type Pitch,
  type PitchText,
  type PitchUnit,
  type PrintedPitch,
  parsePitch,
  printPitch,
} from './pitch.js'
export { gather, InputError, type Problem } from './problems.js'
export { parseRatio, type RatioText } from './ratio.js'
export {
  add,
  compare,
  divide,
  isDecimal,
  multiply,
  type Rational,
  rational,
  subtract,
  toDecimal,
  toFractionText,
  toNumber,
} from './rational.js'
