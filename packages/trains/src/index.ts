export type * from './contract.js'
