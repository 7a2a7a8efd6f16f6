export {
  type BanjoFromMeasures,
  type MeasuredBanjo,
  type MeasuredSlot,
  measureBanjo,
  type Sense,
} from './banjo/measure-banjo.js'
export { makeChart } from './chart.js'
export { checkWorkshop } from './check-workshop.js'
export type * from './contract.js'
export { findTrains } from './find-trains.js'
export { layOut } from './lay-out.js'
export { parseBox } from './parse-box.js'
export { type Prepared, prepare } from './prepare.js'
export { proposeGears } from './propose-gears.js'
export { leadOf } from './set-up.js'
export { WorkshopError } from './workshop-error.js'
