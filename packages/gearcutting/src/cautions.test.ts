import { expect, test } from 'vitest'
import { gearCuttingCautions } from './index.js'

test('cutters, chips, dust, guards and the manual are all minded, each with where it comes from', () => {
  const codes = gearCuttingCautions.map(({ code }) => code)
  expect(new Set(codes).size).toBe(codes.length)
  expect(codes).toEqual(expect.arrayContaining(['manual', 'guards', 'isolate', 'secure', 'withdraw', 'chips', 'dust']))
  for (const { message, source } of gearCuttingCautions) {
    expect(message).toMatch(/^[A-Z].*\.$/s)
    expect(source).toMatch(/US Army TM|US Navy, |common practice, no source$/)
  }
})
