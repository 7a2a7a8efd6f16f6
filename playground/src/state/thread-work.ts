/** What the thread itself asks for, sent for as one: the set-up sheet, and the published threads that it is made with. */
export { setUpSheet } from '@trainwright/sheet'
export * from './thread-finder.js'
