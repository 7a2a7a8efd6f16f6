/** Whether a value rounds to the digits that were printed (half a unit of the last one, and a little for the double). */
function printsAs(value: number, printed: string): boolean {
  const places = printed.split('.')[1]?.length ?? 0
  return Math.abs(value - Number(printed)) <= 0.5 * 10 ** -places + 1e-9
}

/**
 * What is wrong with a value against a printed row, or ''. A row may carry a note: `last digit` when the book is one unit
 * off there, `misprint for X`; both have to be true.
 */
export function disagreement(value: number, printed: string, note = ''): string {
  const says = `${value} against ${printed}${note && ` (${note})`}`
  if (note === '') return printsAs(value, printed) ? '' : says
  const unit = 10 ** -(printed.split('.')[1]?.length ?? 0)
  const meant = note.startsWith('misprint for ')
    ? printsAs(value, note.slice('misprint for '.length))
    : Math.abs(value - Number(printed)) <= 1.01 * unit
  return meant && !printsAs(value, printed) ? '' : says
}

/** '9/8' or '.250' as a number. */
export function fraction(text: string): number {
  const [n, d = '1'] = text.split('/')
  return Number(n) / Number(d)
}
