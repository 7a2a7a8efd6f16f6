import type { Plugin } from 'vite'

const root = new URL('../..', import.meta.url).pathname
/** By where a module stands in the repository, whatever folders that lies in. */
const within = (pattern: RegExp) => (id: string) => pattern.test(id.startsWith(root) ? id.slice(root.length - 1) : id)

/**
 * Few chunks, each packed as one text: what page and worker share, and the page. What is left is the worker, the late parts
 * of the page, and DXF; the few lines that these two share go to what is there already.
 */
export const chunks = [
  {
    name: 'shared',
    test: within(
      /[\\/](measures|trains|fraction\.js|comlink)[\\/](?!.*[\\/]worker[\\/](client|lane|thread|index))|[\\/]no-outline\b/,
    ),
    minShareCount: 2,
    priority: 3,
  },
  {
    name: 'page',
    test: within(
      /[\\/](playground|test-data|sheet|lit|lit-html|lit-element|reactive-element|worker[\\/](client|lane|thread|index))\b|preload-helper/,
    ),
    tags: ['$initial' as const],
    priority: 2,
  },
]

/** Late parts are few and whole: that what they import is sent for along with them is not worth a kilobyte. */
export const lateWithoutHelper: Plugin = {
  name: 'late-without-helper',
  apply: 'build',
  enforce: 'pre',
  load: (id) => (id === '\0vite/preload-helper.js' ? 'export const __vitePreload = (load) => load()' : null),
}
