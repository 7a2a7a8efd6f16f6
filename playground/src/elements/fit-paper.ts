/** A4 less the margins of `@page`, mm; printers round, so a little is left at the foot. */
const PAPER = { width: 186, height: 270 }
const PX_PER_MM = 96 / 25.4
/** How far the print may grow to fill the page, and shrink before it is too small to be read: then it takes two. */
const LARGEST = 1.25
const SMALLEST = 0.6
const STEP = 0.01

/** The rules of the page that are for print only. */
function printRules(): CSSMediaRule[] {
  const rules = [...document.styleSheets].flatMap((sheet) => [...sheet.cssRules])
  return rules.filter((rule) => rule instanceof CSSMediaRule && rule.conditionText === 'print') as CSSMediaRule[]
}

/** Sizes the print so that all of it goes on one page: it is laid out as it will be printed, and measured. */
function fit(app: HTMLElement): void {
  const rules = printRules()
  for (const { media } of rules) media.mediaText = 'all'
  let scale = LARGEST
  app.style.setProperty('zoom', '1')
  for (; scale > SMALLEST; scale -= STEP) {
    app.style.setProperty('--fit', String(scale))
    if (app.getBoundingClientRect().height * scale <= PAPER.height * PX_PER_MM) break
  }
  app.style.removeProperty('zoom')
  for (const { media } of rules) media.mediaText = 'print'
}

/** From now on every print of the page is fitted to the paper. */
export function fitPaper(app: HTMLElement): void {
  app.style.setProperty('--paper', `${PAPER.width}mm`)
  addEventListener('beforeprint', () => fit(app))
}
