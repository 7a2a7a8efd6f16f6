import { type Plugin, transformWithOxc } from 'vite'

/**
 * Runs the `ts` blocks of README.md files as tests. Nothing to import and nothing to register: every README.md named in
 * vitest.config.ts is a test file, and a failure points at its line in the README.
 *
 * In a block, a line that ends in `// => value` is checked:
 *
 *     parsePitch('26 tpi').mm // => { n: '127', d: '130' }
 *     const box = parseBox('20x2 24') // => [{ teeth: 20, count: 2 }, { teeth: 24 }]
 *     parsePitch('soon') // throws 'cannot be read as a number'
 *
 * - the line holds one whole expression, or one `const` with its value; `await` is fine;
 * - the value is any expression; it must equal the line's own, by vitest's toEqual; `// => undefined` works too;
 * - `// throws 'text'` wants an error whose message holds the text;
 * - other lines just run, and so may not throw.
 *
 * A block that has imports starts a test of its own; a block without any goes on where the block before it stopped.
 * Packages are imported by their public names. A block fenced as `ts browser` needs a browser: .ci/library runs it in one.
 */
export function readmeTests(): Plugin {
  return {
    name: 'readme-tests',
    enforce: 'pre',
    async resolveId(source, importer) {
      // The playground depends on every package, so its folder is where all public names can be found.
      if (!importer?.endsWith('README.md') || !source.startsWith('@trainwright/')) return null
      return this.resolve(source, new URL('../playground/index.html', import.meta.url).pathname, { skipSelf: true })
    },
    transform: {
      filter: { id: /README\.md$/ },
      handler: (markdown, id) => transformWithOxc(testsOf(markdown, id), id, { lang: 'ts' }),
    },
  }
}

const importing = /^import\s+(?:type\s|([\w$]+|\{[^}]*\})\s+from\s)/m

/** The README as a module: the same lines, prose left blank, so that line numbers stay true. */
export function testsOf(markdown: string, name: string): string {
  let open = false
  const lines = markdown.split('\n')
  const out = lines.map(() => '')
  for (let i = 0; i < lines.length; i++) {
    if (lines[i].trimEnd() !== '```ts') continue
    const end = lines.indexOf('```', i)
    if (end < 0) throw new Error(`${name}:${i + 1}: this block does not end`)
    const block = lines.slice(i + 1, end).join('\n')
    if (importing.test(block) || !open) {
      out[i] = `${open ? '});' : ''}test(${JSON.stringify(`line ${i + 1}`)}, async () => {`
      open = true
    }
    inlineImports(block)
      .split('\n')
      .forEach((line, k) => {
        out[i + 1 + k] = checked(line)
      })
    i = end
  }
  if (!open) throw new Error(`${name} holds no block of ts`)
  out[0] = `import { expect, test } from 'vitest';${out[0]}`
  return `${out.join('\n')}\n})`
}

/** Imports stand inside the test function: `import { a as b } from 'c'` becomes `const { a: b } = await import('c')`. */
function inlineImports(block: string): string {
  return block
    .replace(/^import type [^'"]*['"][^'"]*['"];?$/gm, (all) => all.replace(/[^\n]/g, ''))
    .replace(/^import (\{[^}]*\}) from (['"][^'"]+['"])/gm, (_, names: string, from: string) => {
      const values = names.replace(/\btype\s+\w+\s*,?/g, '').replace(/ as /g, ': ')
      return `const ${values} = await import(${from})`
    })
}

const expectation = /^(\s*)(?:const ([\w$]+) = )?(.+?);?\s*\/\/ (=>|throws) (.+)$/

function checked(line: string): string {
  const found = expectation.exec(line)
  if (!found) return line
  const [, indent, name, expression, kind, value] = found
  if (kind === 'throws') return `${indent}await expect(async () => ${expression}).rejects.toThrow(${value});`
  const subject = name ?? expression
  return `${indent}${name ? `const ${name} = ${expression}; ` : ''}expect(${subject}).toEqual(${value});`
}

/**
 * The programs of a README: each block with imports, and what follows it without any.
 * @param fences which blocks: 'ts', 'ts browser'
 */
export function blocksOf(markdown: string, fences: readonly string[]): string[] {
  const programs: string[] = []
  for (const [, fence, block] of markdown.matchAll(/^```(.*)\n([\s\S]*?)^```$/gm)) {
    if (!fences.includes(fence)) continue
    if (importing.test(block) || programs.length === 0) programs.push(block)
    else programs[programs.length - 1] += block
  }
  return programs
}

/** A program that leaves behind, as `pairs`, what each checked line gave and what it was to give. */
export function pairsOf(program: string): string {
  const lines = program.split('\n').map((line) => {
    const [, indent, name, expression, kind, value] = expectation.exec(line) ?? []
    if (kind !== '=>') return line
    return `${indent}${name ? `const ${name} = ${expression}; ` : ''}pairs.push([${name ?? expression}, ${value}]);`
  })
  return ['const pairs = []', ...lines, 'globalThis.pairs = pairs'].join('\n')
}
