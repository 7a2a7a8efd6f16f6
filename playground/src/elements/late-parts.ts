/*
 * All that the first answer does not wait for, as one: what the thread itself asks for, gears to make, the chart, the
 * banjo. It comes once the answer stands; apart, it would be a kilobyte more.
 */
import './tw-banjo.js'
import './tw-chart.js'
import './tw-gear.js'
import './tw-making.js'
import './tw-wishes.js'

export { setUpSheet } from '@trainwright/sheet'
export * from '../state/thread-finder.js'
