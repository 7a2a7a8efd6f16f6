import type { Plugin } from 'vite'

/**
 * Makes the search worker an entry of the same build, so that page and worker share the chunks that both need: left to
 * itself, a worker is bundled apart and exact arithmetic is loaded twice.
 */
export const workerSharesChunks: Plugin = {
  name: 'worker-shares-chunks',
  apply: 'build',
  enforce: 'pre',
  async transform(code, id) {
    const [found, , path] = /new URL\((['"])(\.\/entry\.js)\1, import\.meta\.url\)/.exec(code) ?? []
    const entry = path && (await this.resolve(path, id))
    if (!found || !entry) return null
    const file = this.emitFile({ type: 'chunk', id: entry.id, name: 'worker' })
    return { code: code.replace(found, `import.meta.ROLLUP_FILE_URL_${file}`), map: null }
  },
}
