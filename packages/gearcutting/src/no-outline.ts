import type { Problem } from '@trainwright/measures'
import type { Outline } from './outline.js'

/**
 * What is wrong with an outline to be written: that it is none. Its sentence stands here and not among the others, so that
 * DXF, which is sent for on demand, brings none of them along.
 */
export function faultsOf(outline: Outline): Problem[] {
  if (Array.isArray(outline?.loops) && Array.isArray(outline.circles)) return []
  return [{ path: 'outline', code: 'no-outline', message: 'this is no outline: give what `outline` returns.' }]
}
