// Runs inside the page before anything of its own does, and keeps what the bench asks for in `window.seen`.

export function watchPage() {
  const seen = { answer: 0, long: [], shift: 0, stroke: null }
  window.seen = seen
  const watch = (type, note) =>
    new PerformanceObserver((list) => list.getEntries().forEach(note)).observe({ type, buffered: true })
  watch('longtask', ({ duration }) => seen.long.push(duration))
  watch('layout-shift', ({ value, hadRecentInput }) => {
    if (!hadRecentInput) seen.shift += value
  })

  /** ms of now, once what stands in the page is drawn. */
  function drawn(tell) {
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel()
      port1.onmessage = () => tell(performance.now())
      port2.postMessage(null)
    })
  }

  addEventListener(
    'input',
    ({ timeStamp, target }) => {
      seen.stroke = { began: timeStamp, wanted: target.value.trim(), answered: 0 }
    },
    true,
  )

  const text = (selector) => document.querySelector(selector)?.textContent.replace(/\s+/g, ' ').trim()
  let waiting = true
  new MutationObserver((changes) => {
    if (waiting && document.querySelector('.train-drawing')?.checkVisibility({ visibilityProperty: true })) {
      waiting = false
      drawn((now) => {
        seen.answer = now
      })
    }
    const { stroke } = seen
    // The set-up sheet is made of the answer, after it.
    const answer = changes.some(({ target }) => {
      const element = target.nodeType === Node.ELEMENT_NODE ? target : target.parentElement
      return element?.closest('tw-answer') && !element.closest('tw-sheet')
    })
    if (!stroke || !answer || !document.querySelector('.verdict[data-state=current]')) return
    const found = text('.block-thread .minor') === stroke.wanted || document.querySelector('.why')
    if (found) stroke.answered = performance.now() - stroke.began
  }).observe(document, { subtree: true, childList: true, characterData: true, attributes: true })
}
