import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Browser } from 'playwright-core'
import { build, createServer, preview } from 'vite'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { findChromium } from '../chromium.js'
import { launchChromium } from '../launch-chromium.js'
import { blocksOf, pairsOf } from '../readme-tests.js'
import { type Consumer, makeConsumer, names, pathOf, run, tool, typeRoots } from './consumer.js'

/*
 * The packages as others get them: packed, installed in an empty project, and used there in Node, under Vite and by the
 * TypeScript compiler. They must have been built.
 */

let consumer: Consumer
beforeAll(async () => {
  consumer = await makeConsumer()
})
afterAll(() => consumer?.remove())

const readmeOf = (name: string): Promise<string> => readFile(join(pathOf(name), 'README.md'), 'utf8')
const installed = (name: string): string => join(consumer.folder, 'node_modules/@trainwright', name)

describe.each(names)('%s', (name) => {
  test('is clean under publint', async () => {
    expect(await run(consumer.folder, tool('publint'), consumer.tarballs[name], '--strict')).toContain('All good!')
  })

  test('holds licence, changelog, README and what its sources are built to, and nothing else', async () => {
    const sources = (await readdir(join(pathOf(name), 'src'), { recursive: true })) as string[]
    const built = sources
      .filter((file) => file.endsWith('.ts') && !/\.(test|fake)\.ts$|^testing\//.test(file))
      .flatMap((file) => ['.js', '.d.ts'].map((end) => `dist/${file.replace(/\.ts$/, end)}`))
    const held = (await readdir(installed(name), { recursive: true, withFileTypes: true }))
      .filter((one) => one.isFile())
      .map((one) => join(one.parentPath, one.name).slice(installed(name).length + 1))
    // Sources that are gone leave nothing behind: .ci/clear-stale.js.
    expect(held.sort()).toEqual(['CHANGELOG.md', 'LICENSE', 'README.md', 'package.json', ...built].sort())
  })

  test('depends on what it imports, and on nothing else', async () => {
    const dist = join(installed(name), 'dist')
    const files = ((await readdir(dist, { recursive: true })) as string[]).filter((file) => /\.(js|d\.ts)$/.test(file))
    const code = (await Promise.all(files.map((file) => readFile(join(dist, file), 'utf8')))).join('\n')
    const imported = code.matchAll(/^(?:import|export) (?:.* from )?['"]((?:@[\w-]+\/)?[\w.-]+)[^'"]*['"];$/gm)
    const foreign = [...imported].map(([, from]) => from).filter((from) => !from.startsWith('.'))
    const { dependencies } = JSON.parse(await readFile(join(installed(name), 'package.json'), 'utf8'))
    expect([...new Set(foreign)].sort()).toEqual(Object.keys(dependencies).sort())
  })

  test('names nothing that is not in it', async () => {
    const told = await readFile(join(installed(name), 'package.json'), 'utf8')
    expect(told).not.toMatch(/workspace:|"source"/)
    expect(JSON.parse(told)).toMatchObject({ license: 'MIT', type: 'module', sideEffects: false })
  })
})

test.concurrent.each(names)('types of %s resolve as its code does', async (name) => {
  await run(consumer.folder, tool('attw'), consumer.tarballs[name], '--profile', 'esm-only', '--no-color')
})

test('Node solves a train', async () => {
  await consumer.write(
    'solve.js',
    `import { findTrains, parseBox } from '@trainwright/trains'
    import { outline } from '@trainwright/gearcutting'
    import { outlineDxf } from '@trainwright/gearcutting/dxf'
    import { setUpSheet } from '@trainwright/sheet'
    const lathe = { leadscrew: { pitch: '8 tpi' }, studs: 2, shaftClearance: 12 }
    const workshop = { lathe, gears: parseBox('20x2 24 30 32 36 40 45 48 50 54 60 63 65 72 80') }
    const [train] = findTrains(workshop, { pitch: '1 mm' }).trains
    console.log(setUpSheet(workshop, { pitch: '1 mm' }, train).gears.line, train.errorPpm)
    console.log(outlineDxf(outline({ teeth: 20, module: 1 })).includes('LWPOLYLINE'))`,
  )
  expect(await run(consumer.folder, process.execPath, 'solve.js')).toBe('24 → 80, 63 → 60 125\ntrue\n')
})

describe('the compiler, strict', () => {
  const strict = (module: string, moduleResolution: string, include: string) => {
    const libraries = { lib: ['es2023', 'dom'], types: ['node'], typeRoots: [typeRoots], skipDefaultLibCheck: true }
    const compilerOptions = { module, moduleResolution, target: 'es2022', strict: true, noEmit: true, ...libraries }
    return JSON.stringify({ compilerOptions, include: [include] })
  }
  // Every example of the READMEs, as a program of its own, and a mistake that must be told.
  beforeAll(async () => {
    const mistake =
      "import { parseBox } from '@trainwright/trains'\n// @ts-expect-error a number is no text\nparseBox(20)"
    await consumer.write('examples/mistake.ts', mistake)
    for (const name of names) {
      const blocks = blocksOf(await readmeOf(name), ['ts', 'ts browser'])
      await Promise.all(blocks.map((block, i) => consumer.write(`examples/${name}-${i}.ts`, block)))
    }
  })
  test.each([
    ['nodenext', 'nodenext'],
    ['esnext', 'bundler'],
  ])('takes every example with module %s, moduleResolution %s', async (module, moduleResolution) => {
    await consumer.write('tsconfig.json', strict(module, moduleResolution, 'examples'))
    await run(consumer.folder, tool('tsc'), '-p', '.')
  })
})

describe('Vite with the worker', () => {
  const page = '<!doctype html><title>Worker</title><script type="module" src="./main.js"></script>'
  const plain = () => ({ configFile: false, root: consumer.folder, logLevel: 'warn' }) as const
  const port = { port: 0, host: '127.0.0.1' }
  let browser: Browser

  beforeAll(async () => {
    const [block] = blocksOf(await readmeOf('trains'), ['ts browser'])
    await consumer.write('index.html', page)
    await consumer.write('main.js', pairsOf(block))
    await build(plain())
  })
  afterAll(() => browser?.close())

  test('makes a chunk of the worker', async () => {
    const chunks = (await readdir(join(consumer.folder, 'dist/assets'))).filter((file) => file.endsWith('.js'))
    expect(chunks.map((file) => file.split('-')[0]).sort()).toEqual(['entry', 'index'])
  })

  test.skipIf(!findChromium() && process.env.CI !== 'true').each(['built', 'in development'])(
    'answers in a browser, %s',
    async (how) => {
      browser ??= await launchChromium()
      const server =
        how === 'built'
          ? await preview({ ...plain(), preview: port })
          : await (await createServer({ ...plain(), server: port })).listen()
      const shown = await browser.newPage()
      const errors: string[] = []
      shown.on('pageerror', (error) => errors.push(String(error)))
      await shown.goto(server.resolvedUrls!.local[0])
      await shown.waitForFunction(() => 'pairs' in globalThis)
      const pairs = await shown.evaluate(() => (globalThis as unknown as { pairs: [unknown, unknown][] }).pairs)
      await shown.close()
      ;(server.httpServer as { closeAllConnections?: () => void }).closeAllConnections?.()
      await server.close()
      expect(errors).toEqual([])
      expect(pairs.length).toBeGreaterThan(0)
      for (const [found, told] of pairs) expect(found).toEqual(told)
    },
  )
})
