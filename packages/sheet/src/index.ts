export {
  type BanjoDrawing,
  type BanjoTerms,
  type BanjoToDraw,
  type Dimension,
  drawBanjo,
} from './banjo-drawing/banjo-drawing.js'
export { type BanjoSvgOptions, banjoToSvg } from './banjo-drawing/banjo-drawing-svg.js'
export { type RoughBanjo, type RoughMeasures, standInBanjo, standInMeasures } from './banjo-drawing/stand-ins.js'
export { type DimensionName, describeBanjo, dimensionMeanings, workedOut } from './banjo-drawing/words.js'
export { type GearChanges, gearChanges } from './changes.js'
export type { ChartLine, ChartSheet, ChartSheetOptions } from './chart-contract.js'
export { chartSheet } from './chart-sheet.js'
export type * from './contract.js'
export { describeDrawing } from './describe.js'
export { type DrawnGear, type DrawnMesh, type DrawnShaft, drawTrain, type TrainDrawing } from './drawing.js'
export { drawingToSvg, type SvgOptions } from './drawing-svg.js'
export type { Amount, Labelled, Length, PitchFigure, Range } from './figure.js'
export { type ErrorFigures, errorFigures, leadFigures } from './figures.js'
export type { GearIndexing, GearSheet } from './gear-contract.js'
export { type GearToMake, gearSheet } from './gear-sheet.js'
export { type AnySheet, type SheetPart, sheetLines, sheetParts } from './lines.js'
export {
  isMixed,
  moduleOf,
  type Place,
  type PlacedGear,
  placesOf,
  type Role,
  sizeOf,
  type Turning,
  trainInLine,
} from './places.js'
export { setUpSheet } from './set-up-sheet.js'
export type { ThreadWork } from './thread-work.js'
export { turningSeen, type View } from './view.js'
