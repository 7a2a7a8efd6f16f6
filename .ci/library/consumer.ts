import { execFile } from 'node:child_process'
import { cp, mkdir, mkdtemp, readdir, readFile, realpath, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { promisify } from 'node:util'

const root = new URL('../..', import.meta.url).pathname

export const names = ['measures', 'trains', 'threads', 'gearcutting', 'sheet'] as const
export const pathOf = (name: string): string => join(root, 'packages', name)

/** Runs a command in a folder; what it printed, also when it failed, is the error's message. */
export async function run(folder: string, command: string, ...args: string[]): Promise<string> {
  try {
    return (await promisify(execFile)(command, args, { cwd: folder, maxBuffer: 10_000_000 })).stdout
  } catch (error) {
    const { stdout = '', stderr = '' } = error as { stdout?: string; stderr?: string }
    throw new Error(`${command} ${args.join(' ')}\n${stdout}\n${stderr}`)
  }
}

/** The command of a development dependency. */
export const tool = (name: string): string => join(root, 'node_modules/.bin', name)

/** Types of Node, for examples that write files. */
export const typeRoots = join(root, 'node_modules/@types')

/** Where the packages of others that ours depend on lie in the workspace. */
async function foreign(): Promise<string[]> {
  const found = new Set<string>()
  for (const name of names) {
    const { dependencies } = JSON.parse(await readFile(join(pathOf(name), 'package.json'), 'utf8'))
    for (const other of Object.keys(dependencies)) {
      if (!other.startsWith('@trainwright/')) found.add(await realpath(join(pathOf(name), 'node_modules', other)))
    }
  }
  return [...found]
}

export interface Consumer {
  /** An empty project in which all packages are installed. */
  folder: string
  /** The packed packages, by name. */
  tarballs: Record<string, string>
  write(file: string, text: string): Promise<void>
  remove(): Promise<void>
}

/**
 * Packs the packages as they are published, and what they depend on out of the workspace, and installs all of it with
 * npm in a new project. Nothing is asked of a registry: a dependency that is not declared, or not of the version declared,
 * fails here.
 */
export async function makeConsumer(): Promise<Consumer> {
  const folder = await realpath(await mkdtemp(join(tmpdir(), 'trainwright-')))
  const packs = join(folder, 'packs')
  await mkdir(packs)
  const pnpm = ['-y', '--prefer-offline', 'pnpm@10.34.9', '-r', '--filter', './packages/*']
  await run(root, 'npx', ...pnpm, 'pack', '--pack-destination', packs)
  const ours = await readdir(packs)
  for (const [i, other] of (await foreign()).entries()) {
    // As it was published: npm would leave out once more what its own settings leave out.
    await cp(other, join(folder, 'stage', 'package'), { recursive: true })
    await run(folder, 'tar', '-czf', join(packs, `other-${i}.tgz`), '-C', 'stage', 'package')
    await rm(join(folder, 'stage'), { recursive: true })
  }
  await writeFile(join(folder, 'package.json'), JSON.stringify({ private: true, type: 'module' }))
  const quiet = ['--ignore-scripts', '--no-audit', '--no-fund', '--no-package-lock']
  const all = (await readdir(packs)).map((file) => `./packs/${file}`)
  await run(folder, 'npm', 'install', '--offline', '--cache', join(folder, 'cache'), ...quiet, ...all)
  const tarball = (name: string) => join(packs, ours.find((file) => file.startsWith(`trainwright-${name}-`))!)
  return {
    folder,
    tarballs: Object.fromEntries(names.map((name) => [name, tarball(name)])),
    async write(file, text) {
      await mkdir(dirname(join(folder, file)), { recursive: true })
      await writeFile(join(folder, file), text)
    },
    remove: () => rm(folder, { recursive: true, force: true }),
  }
}
