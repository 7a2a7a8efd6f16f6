import type { Job } from '../state/job.js'
import type { Keeper } from '../state/keeper.js'

/** Fields to write in have an undo of their own. */
const isText = (target: EventTarget | null): target is HTMLInputElement | HTMLTextAreaElement =>
  target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && target.selectionStart !== null)

/**
 * Ctrl or Cmd with Z, Shift Z or Y, everywhere on the page. In a field, too, what is typed is undone in the order in
 * which it was typed; only a field whose text the page does not hold undoes for itself.
 */
export function undoKeys(job: Job, keeper: Keeper): void {
  const forThemselves = new WeakSet<EventTarget>()
  let before = job.typed.value
  const mayUndo = (target: EventTarget | null) => !isText(target) || !forThemselves.has(target)

  addEventListener(
    'input',
    () => {
      before = job.typed.value
    },
    true,
  )
  addEventListener('input', ({ target }) => {
    if (!isText(target)) return
    if (job.typed.value === before) forThemselves.add(target)
    else forThemselves.delete(target)
  })
  addEventListener('keydown', (event) => {
    const { key, ctrlKey, metaKey, shiftKey, altKey, target } = event
    const letter = key.toLowerCase()
    const redo = (letter === 'z' && shiftKey) || (letter === 'y' && ctrlKey)
    if (altKey || ctrlKey === metaKey || !(redo || letter === 'z') || !mayUndo(target)) return
    event.preventDefault()
    if (redo) keeper.redo()
    else keeper.undo()
  })
  // The same from a menu, or by shaking a telephone.
  addEventListener('beforeinput', (event) => {
    const way = /^history(Undo|Redo)$/.exec(event.inputType)?.[1]
    if (!way || !mayUndo(event.target)) return
    event.preventDefault()
    if (way === 'Redo') keeper.redo()
    else keeper.undo()
  })
}
