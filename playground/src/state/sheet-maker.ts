/** The maker of set-up sheets, apart: a train is answered before its sheet is written. */
export { setUpSheet } from '@trainwright/sheet'
