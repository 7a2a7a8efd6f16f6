import { checkBlank, chooseCutter, indexable, type OwnedCutter } from '@trainwright/gearcutting'
import { gather, type Problem } from '@trainwright/measures'
import type { ProposeOptions } from '@trainwright/trains'
import { millimetres, number, zeroOr } from './read-text.js'
import { LEAST, MOST, platesOf, type TypedMaking } from './typed-making.js'

export interface Making {
  /** What is asked of the search. */
  options: ProposeOptions
  /** What the gear sheet needs besides; null where it was left blank. */
  bore: { bore: number; keyway: { width: number; depth: number } | null; wall: number } | null
  cutters: OwnedCutter[] | null
  problems: Problem[]
}

/** Fields by the paths of those who do not know the page. */
const fields: readonly [RegExp, string][] = [
  [/^(range|options\.teeth)\[0\]/, 'least'],
  [/^(range|options\.teeth)/, 'most'],
  [/^options\.module/, 'module'],
  [/^head\.worm/, 'worm'],
  [/^head\.plates/, 'plates'],
  [/^(options\.)?blank\.bore/, 'bore'],
  [/^blank\.keyway\.width/, 'keywayWidth'],
  [/^(options\.)?blank\.keyway/, 'keywayDepth'],
  [/^(options\.)?blank\.wall/, 'wall'],
]

/** Problems of these limits at the fields of the page; others are left out, for they stand elsewhere already. */
export const placedAtLimits = (problems: readonly Problem[]): Problem[] =>
  problems.flatMap((problem) => {
    const field = fields.find(([pattern]) => pattern.test(problem.path))
    return field ? [{ ...problem, path: `making.${field[1]}`, message: onPage(problem) }] : []
  })

const plates = 'such as 15 16 17 18 19 20'
const worded: Readonly<Record<string, string>> = {
  'no-plates': `A head without plates divides nothing: write the circles of each plate on a line, ${plates}. A change gear on the mandrel is a plate of one circle, with 1 for the worm.`,
  'no-circles': `A plate here has no circles: write its hole counts, ${plates}, or take the line out.`,
}

/** Sentences as they stand beside a field, where what was typed can be seen. */
const onPage = ({ code, message }: Problem): string =>
  worded[code] ?? message.replace('“NaN” is', 'This is').replace(/^[a-z]/, (letter) => letter.toUpperCase())

/** Runs `read`; its problems go beside the fields of the page. */
function at<T>(problems: Problem[], read: () => T): T | undefined {
  const found: Problem[] = []
  const result = gather(found, read)
  problems.push(...placedAtLimits(found))
  return result
}

/** A gear that can be made, where bores and cutters are looked at before there is one to make. */
const SOME_GEAR = { teeth: 40, module: 1 }

/** A head that divides nothing but checks the range all the same, for the owner who has none. */
const NO_HEAD = { worm: 1, plates: [[2]] }

function makeable({ worm, plates, exactly }: TypedMaking, range: [number, number], problems: Problem[]) {
  if (worm.trim() === '' && plates.trim() === '') {
    at(problems, () => indexable(NO_HEAD, range))
    return {}
  }
  const head = { worm: number(worm), plates: platesOf(plates) }
  const counts = at(problems, () => indexable(head, range))
  return counts && exactly ? { makeable: counts } : {}
}

function blank(typed: TypedMaking, problems: Problem[]): Making['bore'] {
  const read = (field: 'bore' | 'keywayWidth' | 'keywayDepth' | 'wall') =>
    typed[field].trim() === '' ? 0 : zeroOr(millimetres(problems, `making.${field}`))(typed[field])
  const [bore, width, depth, wall] = [read('bore'), read('keywayWidth'), read('keywayDepth'), read('wall')]
  const need = (field: string) => problems.push({ path: `making.${field}`, code: 'missing', message: '' })
  if (bore === 0 && (width || depth || wall)) need('bore')
  if (width === 0 && depth) need('keywayWidth')
  if (depth === 0 && width) need('keywayDepth')
  if (!bore) return null
  const keyway = width && depth ? { width, depth } : null
  const whole = { bore, wall: wall ?? 0, ...(keyway && { keyway }) }
  return at(problems, () => checkBlank({ ...SOME_GEAR, blank: whole })) ? { bore, keyway, wall: whole.wall } : null
}

/** What is wrong with a cutter, whether or not it would cut some gear. */
function faultsOf(owned: OwnedCutter): Problem[] {
  const found: Problem[] = []
  gather(found, () => chooseCutter({ ...SOME_GEAR, owned: [owned] }))
  return found.filter(({ path }) => path.startsWith('owned[0]'))
}

const SIZE = /^(?:(?:module|mod|m)\s*([\d.]+)|([\d.]+)\s*(?:module|mod|dp))/i
const ANGLE = /([\d.]+)\s*(?:°|deg\w*)/i
const RANGES = /(\d+)\s*(?:(?:-|–|to)\s*(\d+|rack)|\+)/gi

/** 'module 1: 12-13 14-16', '20 DP 14.5°: 35-54 135-rack'. */
function readCutters(text: string, problems: Problem[]): OwnedCutter[] | null {
  const lines = text.split('\n').filter((line) => line.trim() !== '')
  const owned = lines.flatMap((line, i): OwnedCutter[] => {
    const size = SIZE.exec(line.trim())
    const rest = size ? line.trim().slice(size[0].length) : ''
    const angle = ANGLE.exec(rest)
    const ranges = [...rest.replace(ANGLE, ' ').matchAll(RANGES)]
    if (!size || ranges.length === 0) {
      const message = `Line ${i + 1} cannot be read: write the size, then the ranges stamped on the cutters, such as module 1: 26-34 35-54.`
      problems.push({ path: 'making.cutters', code: 'unread', message })
      return []
    }
    const value = Number(size[1] ?? size[2])
    const read = ranges.map(([, from, to]) => ({
      ...(/dp/i.test(size[0]) ? { dp: value } : { module: value }),
      ...(angle ? { pressureAngle: Number(angle[1]) } : {}),
      from: Number(from),
      ...(to && !/rack/i.test(to) ? { to: Number(to) } : {}),
    }))
    const faults = read.map(faultsOf)
    for (const problem of faults.flat())
      problems.push({ ...problem, path: 'making.cutters', message: `Line ${i + 1}: ${problem.message}` })
    return read.filter((_, k) => faults[k]!.length === 0)
  })
  return lines.length > 0 ? owned : null
}

/** What the owner can make, as far as it can be read. */
export function readMaking(typed: TypedMaking): Making {
  const problems: Problem[] = []
  const { gears, least, most, module } = typed
  const teeth: [number, number] = [least.trim() ? number(least) : LEAST, most.trim() ? number(most) : MOST]
  const bore = blank(typed, problems)
  const options: ProposeOptions = {
    make: gears === '2' ? 2 : 1,
    teeth,
    ...makeable(typed, teeth, problems),
    ...(module.trim() ? { module: number(module) } : {}),
    ...(bore && {
      blank: { bore: bore.bore, ...(bore.keyway && { keyway: bore.keyway.depth }), wall: bore.wall },
    }),
  }
  return { options, bore, cutters: readCutters(typed.cutters, problems), problems }
}
