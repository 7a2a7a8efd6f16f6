import {
  Application,
  type Comment,
  type DeclarationReflection,
  ReflectionKind,
  type SignatureReflection,
  type SomeType,
} from 'typedoc'

/** Names whose meaning is the same everywhere and told once, in DEVELOPERS.md; all of them are text. */
const toldOnce = new Set(['text', 'label', 'message', 'code', 'name', 'title', 'kind', 'source'])
/** Counts that tell their unit by their name. */
const counts = new Set(['teeth', 'starts', 'plane', 'planes', 'studs', 'lines', 'divisions', 'limit', 'stages'])
/** What a number may be counted in. */
const units =
  /\b(mm|degrees?|minutes|seconds|ppm|percent|turns?|holes|lines|threads|gears|teeth|positions?|count(ed)?|whole|index|indices|fractions?|modules?|ratio|inch(es)?|times|range|pitch(es)?|radians)\b/i
/** Shapes that people write although a function may give them too. */
const alsoWritten = new Set(['Workshop', 'Banjo', 'OwnForm', 'GearRef', 'GearStock'])
/** How far an input may go. */
const ranges =
  /\b(above|from|at least|at most|or more|or less|up to|within|below|defaults?|any|least|between|to -?\d+|positive|no more)\b/i

/** Packages whose figures rest on standards, handbooks and geometry: which, is said with each function. */
const sourced = /^(threads|gearcutting)\b/
const sources =
  /\b(ISO \d|BS \d|ASME|NPL|MAAG|SDP|Handbook|Buckingham|Jones|Rose|BA\b|practice|memory|catalogue|geometr|arithmetic|source)/i
/** They look up, choose or print, and figure nothing out. */
const figureless = new Set([
  ...['checkBlank', 'chooseCutter', 'outlinePath', 'outlineSvg', 'outlineDxf'],
  ...['findThread', 'nearestWire', 'recognitionVerdict', 'seriesNames'],
])

interface Documented {
  comment?: Comment
}
const parts = (list: readonly { text: string }[] = []): string =>
  list
    .map(({ text }) => text)
    .join('')
    .replace(/\s+/g, ' ')
const said = ({ comment }: Documented): string =>
  parts([...(comment?.summary ?? []), ...(comment?.blockTags ?? []).flatMap(({ content }) => content)])
const tag = ({ comment }: Documented, name: `@${string}`): string =>
  parts((comment?.blockTags ?? []).filter((one) => one.tag === name).flatMap(({ content }) => content))

export interface PublicFunction {
  module: string
  name: string
  /** What its docstring says of errors. */
  throws: string
  says: string
}

export interface Docstrings {
  /** What is not told, one line each. */
  missing: string[]
  functions: PublicFunction[]
}

/** Whether a number comes out of this type without passing through a shape of its own. */
function numeric(type: SomeType | undefined): boolean {
  if (!type) return false
  if (type.type === 'intrinsic') return type.name === 'number'
  if (type.type === 'array') return numeric(type.elementType)
  if (type.type === 'optional') return numeric(type.elementType)
  if (type.type === 'namedTupleMember') return numeric(type.element)
  if (type.type === 'typeOperator') return numeric(type.target)
  if (type.type === 'tuple') return type.elements.some(numeric)
  if (type.type === 'union') return type.types.some(numeric)
  return false
}

/** Whether the type tells what the member is: another public shape, a choice of words. */
function telling(type: SomeType | undefined): boolean {
  if (!type) return false
  if (type.type === 'array' || type.type === 'optional') return telling(type.elementType)
  if (type.type === 'typeOperator') return telling(type.target)
  if (type.type === 'union' || type.type === 'intersection') {
    return type.types.every((one) => telling(one) || (one.type === 'intrinsic' && one.name === 'undefined'))
  }
  return type.type === 'reference' || type.type === 'literal' || type.type === 'reflection'
}

/** Shapes written in place. */
function inline(type: SomeType | undefined): DeclarationReflection[] {
  if (!type) return []
  if (type.type === 'reflection') return [type.declaration]
  if (type.type === 'array' || type.type === 'optional') return inline(type.elementType)
  if (type.type === 'typeOperator') return inline(type.target)
  if (type.type === 'union' || type.type === 'intersection') return type.types.flatMap(inline)
  return []
}

/** Names of public types that a type mentions. */
function mentioned(type: SomeType | undefined): DeclarationReflection[] {
  if (!type) return []
  if (type.type === 'reference') {
    const found = type.reflection as DeclarationReflection | undefined
    return [...(found ? [found] : []), ...(type.typeArguments ?? []).flatMap(mentioned)]
  }
  if (type.type === 'array' || type.type === 'optional') return mentioned(type.elementType)
  if (type.type === 'typeOperator') return mentioned(type.target)
  if (type.type === 'union' || type.type === 'intersection') return type.types.flatMap(mentioned)
  if (type.type === 'reflection') return (type.declaration.children ?? []).flatMap(({ type }) => mentioned(type))
  return []
}

const signaturesOf = (one: DeclarationReflection): SignatureReflection[] => [
  ...(one.signatures ?? []),
  ...inline(one.type).flatMap((shape) => shape.signatures ?? []),
]

/** Reads the docstrings of all public names, as `npm run docs` does, and says what they lack. */
export async function readDocstrings(root: string): Promise<Docstrings> {
  const app = await Application.bootstrapWithPlugins({ options: `${root}/typedoc.json`, logLevel: 'Error' })
  const project = await app.convert()
  if (!project) throw new Error('typedoc could not read the packages')
  app.validate(project)
  // Names that are used and not exported, links that lead nowhere, parameters that are not there.
  const missing: string[] = app.logger.hasWarnings() ? ['typedoc has something to say: npm run docs'] : []
  const functions: PublicFunction[] = []
  const exported = (project.children ?? []).flatMap((module) =>
    // A name that another entry exports too is told there.
    (module.children ?? []).filter((one) => !one.isReference()).map((one) => ({ one, module: module.name })),
  )

  // What a caller writes, however deep, has ranges; what a function gives has units only, also where it is handed on.
  const written = new Set<DeclarationReflection>()
  const given = new Set<DeclarationReflection>()
  const gather = (into: Set<DeclarationReflection>, type: SomeType | undefined): void => {
    for (const shape of mentioned(type)) {
      if (into.has(shape) || (into === given && alsoWritten.has(shape.name))) continue
      into.add(shape)
      for (const member of shape.children ?? []) gather(into, member.type)
      gather(into, shape.type)
    }
  }
  const signaturesOfAll = exported.flatMap(({ one }) => signaturesOf(one))
  for (const { type } of signaturesOfAll) gather(given, type)
  for (const { type } of signaturesOfAll.flatMap(({ parameters = [] }) => parameters)) gather(written, type)
  const isInput = (shape: DeclarationReflection) => written.has(shape) && !given.has(shape)

  function members(of: DeclarationReflection, path: string, above: string, input: boolean): void {
    for (const member of of.children ?? []) {
      // What is inherited, or goes without saying, is told where it comes from.
      if (member.inheritedFrom || member.overwrites || member.kindOf(ReflectionKind.Constructor)) continue
      const { name } = member
      const own = [said(member), ...signaturesOf(member).map(said)].join(' ').trim()
      const here = `${path}.${name}`
      const heard = `${above} ${own}`
      const alone = above.includes(`\`${name}\``)
      if (numeric(member.type)) {
        if (!own && !alone && !counts.has(name) && !units.test(heard)) missing.push(`${here}: in what it is counted`)
        else if (!counts.has(name) && !units.test(heard)) missing.push(`${here}: its unit`)
        if (input && !ranges.test(heard)) missing.push(`${here}: its range, or its default`)
      } else if (!own && !alone && !toldOnce.has(name) && !telling(member.type)) {
        missing.push(`${here}: what it is`)
      }
      for (const shape of inline(member.type)) members(shape, here, heard, input)
    }
  }

  for (const { one, module } of exported) {
    const path = `${module}.${one.name}`
    const signatures = signaturesOf(one)
    const own = [said(one), ...signatures.map(said)].join(' ').trim()
    if (!own) missing.push(`${path}: a docstring`)
    for (const signature of one.signatures ?? []) {
      functions.push({ module, name: one.name, throws: tag(signature, '@throws'), says: said(signature) })
      if (sourced.test(module) && !figureless.has(one.name) && !sources.test(parts(signature.comment?.summary))) {
        missing.push(`${path}: its source`)
      }
      for (const shape of inline(signature.type)) members(shape, `${path}()`, own, false)
      for (const given of signature.parameters ?? []) {
        const told = `${own} ${said(given)}`
        if (numeric(given.type) && !units.test(told)) missing.push(`${path}(${given.name}): its unit`)
        for (const shape of inline(given.type)) members(shape, `${path}(${given.name})`, told, true)
      }
    }
    members(one, path, own, isInput(one))
    for (const shape of inline(one.type)) members(shape, path, own, isInput(one))
  }
  return { missing, functions }
}
