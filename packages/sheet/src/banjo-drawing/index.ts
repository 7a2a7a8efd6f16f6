export { type BanjoDrawing, type BanjoTerms, type BanjoToDraw, type Dimension, drawBanjo } from './banjo-drawing.js'
export { type BanjoSvgOptions, banjoToSvg } from './banjo-drawing-svg.js'
export { type RoughBanjo, type RoughMeasures, standInBanjo, standInMeasures } from './stand-ins.js'
export { type DimensionName, describeBanjo, dimensionMeanings, workedOut } from './words.js'
