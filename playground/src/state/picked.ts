import type { Train } from '@trainwright/trains'
import type { Answer } from './answers.js'

/** A train by its gears in order and its setting: the same train in two answers has the same key. */
export const trainKey = ({ stages, drive, gearbox }: Train): string => JSON.stringify([stages, drive, gearbox])

/** A lead further out than this is no answer, even where it is the closest: ppm. */
const ABSURD = 10_000

/**
 * The train to show: the one picked if it is still among the answers, else the best; where none goes on within tolerance
 * the closest, or the one that would cut the thread if it did fit.
 */
export function shownTrain({ search, misfit }: Answer, picked: string | null): Train | null {
  if (!search) return null
  const { trains, closest } = search
  const fallback = [closest, misfit?.train ?? null].filter((train) => train !== null)
  const named = [...trains, ...fallback].find((train) => trainKey(train) === picked)
  const near = closest && Math.abs(closest.errorPpm) <= ABSURD ? closest : null
  return named ?? trains[0] ?? near ?? fallback.at(-1) ?? null
}
