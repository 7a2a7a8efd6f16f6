/**
 * The one exit for lengths and angles: rounds every number in a result to 1e-9 (mm, degrees), so that every engine prints
 * the same bytes.
 */
export function rounded<T>(x: T): T {
  if (typeof x === 'number') return (Math.round(x * 1e9) / 1e9 + 0) as T
  if (Array.isArray(x)) return x.map(rounded) as T
  if (x && typeof x === 'object')
    return Object.fromEntries(Object.entries(x).map(([key, value]) => [key, rounded(value)])) as T
  return x
}

export const radians = (degrees: number): number => (degrees * Math.PI) / 180
export const degrees = (radians: number): number => (radians * 180) / Math.PI
export const cot = (angle: number): number => 1 / Math.tan(angle)
