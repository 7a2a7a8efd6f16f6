import { afterAll, expect, test, vi } from 'vitest'
import { allDrawn, breathe, turn } from './turns.js'

let now = 1e9
const clock = vi.spyOn(performance, 'now').mockImplementation(() => now)
afterAll(() => clock.mockRestore())

/** Draws for so many ms when its turn comes. */
async function draw(name: string, ms: number, done: string[]): Promise<void> {
  await turn()
  now += ms
  done.push(name)
}

test('turns are taken in the order in which they were asked for, and others are let in after a long one', async () => {
  const done: string[] = []
  await draw('before', 20, [])
  const first = draw('first', 20, done).then(() => void breathe().then(() => done.push('a message')))
  await Promise.all([first, ...['second', 'third'].map((name) => draw(name, 20, done))])
  expect(done).toEqual(['first', 'second', 'a message', 'third'])
})

test('short turns share a slice', async () => {
  const done: string[] = []
  await draw('before', 20, [])
  await turn()
  void breathe().then(() => done.push('a message'))
  await Promise.all(['first', 'second', 'third'].map((name) => draw(name, 3, done)))
  expect(done).toEqual(['first', 'second', 'third'])
})

test('all is drawn when those have had their turn, too, who were brought along', async () => {
  const done: string[] = []
  const parent = async () => {
    await draw('parent', 3, done)
    void draw('child', 20, done).then(() => draw('grandchild', 20, done))
  }
  void parent()
  await allDrawn()
  expect(done).toEqual(['parent', 'child', 'grandchild'])
})
