import type { Train } from '@trainwright/trains'
import type { Answer } from './answers.js'

/** A train by its gears in order and its setting: the same train in two answers has the same key. */
export const trainKey = ({ stages, drive, gearbox }: Train): string => JSON.stringify([stages, drive, gearbox])

/** The train to show: the one picked if it is still among the answers, else the best, else the closest. */
export function shownTrain({ search }: Answer, picked: string | null): Train | null {
  if (!search) return null
  const { trains, closest } = search
  return trains.find((train) => trainKey(train) === picked) ?? trains[0] ?? closest
}
