export { checkWorkshop } from './check-workshop.js'
export type * from './contract.js'
export { findTrains } from './find-trains.js'
export { WorkshopError } from './workshop-error.js'
