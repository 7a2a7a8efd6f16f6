import { InputError } from '@trainwright/measures'

/** Bad input to the search: a workshop, a thread wanted, options or a set-up. `problems` names everything wrong. */
export class WorkshopError extends InputError {
  override name = 'WorkshopError'
}
