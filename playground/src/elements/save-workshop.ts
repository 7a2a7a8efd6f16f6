import { pageOf, shopOf } from '../state/held.js'
import type { Keeper } from '../state/keeper.js'
import { fileName, fileText } from '../state/workshop-file.js'
import { saveFile } from './save-file.js'

/** Hands a person the open workshop and the threads wanted as a file. */
export function saveWorkshop(keeper: Keeper): void {
  const { held } = keeper.value
  saveFile(fileName(shopOf(held)), 'application/json', fileText(shopOf(held), pageOf(held)))
}
