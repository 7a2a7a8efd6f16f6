import { build, type Rolldown } from 'vite'

const playground = new URL('../playground/', import.meta.url).pathname
const entry = `${playground}one-module.js`

/**
 * A program with all that it imports as one minified module; what a worker loads is a chunk of its own and not in it.
 * @param code the program
 * @param options `source`: packages as they are written instead of as they were built; `external`: what is left out
 */
export async function oneModule(
  code: string,
  { source = false, external = [] }: { source?: boolean; external?: RegExp[] } = {},
): Promise<string> {
  const conditions = ['module', 'browser', 'production']
  const result = (await build({
    configFile: false,
    root: playground,
    logLevel: 'error',
    resolve: { conditions: source ? ['source', ...conditions] : conditions },
    worker: { format: 'es' },
    plugins: [
      {
        name: 'entry',
        enforce: 'pre',
        resolveId(id, importer) {
          if (id.endsWith(entry)) return entry
          // The playground depends on every package, so all public names can be found from its folder.
          const ours = id.startsWith('@trainwright/') && importer?.includes('/.ci/')
          return ours ? this.resolve(id, entry, { skipSelf: true }) : null
        },
        load: (id) => (id === entry ? code : null),
      },
    ],
    build: {
      write: false,
      modulePreload: false,
      rolldownOptions: { input: entry, preserveEntrySignatures: 'strict', external },
    },
  })) as Rolldown.RolldownOutput
  return (result.output.find((part) => part.type === 'chunk' && part.isEntry) as Rolldown.OutputChunk).code
}
