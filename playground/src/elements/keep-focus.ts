const KEYS = 'button, summary, select, input, textarea, a[href]'

/**
 * When the key that was pressed vanishes, the next of its like takes the focus: a browser would send the keyboard back to
 * the top of the page.
 */
export function keepFocus(root: HTMLElement): void {
  let last: HTMLElement | null = null
  let all: HTMLElement[] = []
  root.addEventListener('focusin', ({ target }) => {
    last = target as HTMLElement
    all = [...root.querySelectorAll<HTMLElement>(KEYS)]
  })
  new MutationObserver(() => {
    if (!last || last.isConnected || document.activeElement !== document.body) return
    const { tagName } = last
    const at = all.indexOf(last)
    last = null
    const there = (one: HTMLElement) => one.tagName === tagName && one.isConnected && one.checkVisibility()
    const next = all.slice(at).find(there) ?? all.slice(0, at).findLast(there)
    next?.focus()
  }).observe(root, { childList: true, subtree: true })
}
