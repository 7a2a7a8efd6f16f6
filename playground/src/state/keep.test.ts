import { describe, expect, it } from 'vitest'
import { demo } from '../demo.js'
import { keep, recall } from './keep.js'

function storage(text: string | null = null): () => Storage {
  let kept = text
  const made = {
    getItem: () => kept,
    setItem: (_: string, value: string) => {
      kept = value
    },
  }
  return () => made as unknown as Storage
}

describe('keep and recall', () => {
  it('gives back what was typed, unreadable or not', () => {
    const typed = demo()
    typed.threads[0]!.pitch = 'half typ'
    const there = storage()
    expect(keep(there, typed)).toBe(true)
    expect(recall(there)).toEqual(typed)
  })

  it.each([
    ['nothing', null],
    ['no JSON', '{'],
    ['another version', JSON.stringify({ version: 0, typed: demo() })],
    ['a list', '[]'],
    ['a part missing', JSON.stringify({ version: 1, typed: { ...demo(), workshop: { name: '' } } })],
    ['a thread that is not there', JSON.stringify({ version: 1, typed: { ...demo(), thread: 9 } })],
    ['no kinds', JSON.stringify({ version: 1, typed: { ...demo(), workshop: { ...demo().workshop, kinds: [] } } })],
    ['numbers for texts', JSON.stringify({ version: 1, typed: { ...demo(), threads: [{ pitch: 3 }] } })],
    ['names from a prototype', '{"version":1,"typed":{"__proto__":{"threads":[]}}}'],
  ])('starts afresh from %s', (_, text) => {
    expect(recall(storage(text))).toBeNull()
  })

  it('says so when the browser keeps nothing', () => {
    const refused = () => {
      throw new Error('no storage here')
    }
    expect(keep(refused, demo())).toBe(false)
    expect(recall(refused)).toBeNull()
  })
})
