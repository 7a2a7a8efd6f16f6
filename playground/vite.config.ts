import { defineConfig, type ESTree, type Plugin } from 'vite'
import { VitePWA } from 'vite-plugin-pwa'

/** Nothing from elsewhere, nothing inline. Only what is built: the development server needs inline styles. */
const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

const contentSecurityPolicy: Plugin = {
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: policy }, injectTo: 'head-prepend' },
  ],
}

/**
 * Makes the search worker an entry of the same build, so that page and worker share the chunks that both need: left to
 * itself, a worker is bundled apart and exact arithmetic is loaded twice.
 */
const workerSharesChunks: Plugin = {
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

/** What the source of a template is set in is no part of the page: line breaks with their indentation become one space. */
const templatesWithoutIndentation: Plugin = {
  name: 'templates-without-indentation',
  apply: 'build',
  enforce: 'post',
  transform(code, id) {
    if (!/[\\/]playground[\\/]src[\\/].*\.ts$/.test(id) || !code.includes('html`')) return null
    const texts: { start: number; end: number }[] = []
    const look = (node: unknown): void => {
      if (Array.isArray(node)) for (const one of node) look(one)
      if (typeof node !== 'object' || node === null || Array.isArray(node)) return
      const { type, tag, quasi } = node as ESTree.TaggedTemplateExpression
      if (type === 'TaggedTemplateExpression' && tag.type === 'Identifier' && tag.name === 'html')
        texts.push(...quasi.quasis)
      for (const one of Object.values(node)) look(one)
    }
    look(this.parse(code))
    let end = 0
    const parts = texts
      .sort((a, b) => a.start - b.start)
      .map((text) => {
        const before = code.slice(end, text.start)
        end = text.end
        return before + code.slice(text.start, text.end).replace(/\s*\n\s*/g, ' ')
      })
    return { code: parts.join('') + code.slice(end), map: null }
  },
}

/** Late parts are few and whole: that what they import is sent for along with them is not worth a kilobyte. */
const lateWithoutHelper: Plugin = {
  name: 'late-without-helper',
  apply: 'build',
  enforce: 'pre',
  load: (id) => (id === '\0vite/preload-helper.js' ? 'export const __vitePreload = (load) => load()' : null),
}

/**
 * Few chunks, each packed as one text: what page and worker share, the page, the set-up sheet with the tables of threads.
 * What is left is the worker, the banjo, the sheets for making gears, and DXF.
 */
const chunks = [
  {
    name: 'shared',
    test: /[\\/](measures|trains|fraction\.js|comlink)[\\/](?!.*[\\/]worker[\\/](client|lane|thread|index))/,
    minShareCount: 2,
    priority: 3,
  },
  {
    name: 'page',
    test: /[\\/](playground|test-data|sheet|lit|lit-html|lit-element|reactive-element|worker[\\/](client|lane|thread|index))\b|preload-helper/,
    tags: ['$initial' as const],
    priority: 2,
  },
  {
    name: 'sheet',
    test: /[\\/](threads[\\/]|sheet[\\/](?!.*((gear|chart)-|banjo-drawing))|state[\\/](sheet-maker|thread-finder|lead-tolerance))/,
    priority: 1,
  },
]

/** Sends for the worker, too, as soon as the page's address is read. */
const sentForEarly: Plugin = {
  name: 'sent-for-early',
  apply: 'build',
  transformIndexHtml: {
    order: 'post',
    handler(html, { bundle = {} }) {
      const parts = Object.values(bundle).filter((part) => part.type === 'chunk')
      const needed = new Set<string>()
      const need = (file: string): void => {
        if (needed.has(file)) return
        needed.add(file)
        for (const other of parts.find(({ fileName }) => fileName === file)?.imports ?? []) need(other)
      }
      for (const { name, fileName } of parts) if (name === 'worker') need(fileName)
      return [...needed]
        .filter((file) => !html.includes(file))
        .map((file) => ({
          tag: 'link',
          attrs: { rel: 'modulepreload', crossorigin: true, href: `./${file}` },
          injectTo: 'head',
        }))
    },
  },
}

/** The page for days without network. A newer version waits until the person agrees to it. */
const offline = VitePWA({
  registerType: 'prompt',
  // The page registers it itself, without an inline script.
  injectRegister: false,
  // Pictures for the home screen are asked for when it is installed, and never again.
  includeManifestIcons: false,
  workbox: { clientsClaim: true, globPatterns: ['**/*.{js,css,html,svg}'] },
  manifest: {
    id: './',
    name: 'Trainwright: change gears for the thread in hand',
    short_name: 'Trainwright',
    description: 'Which change gears, on which studs, cut this thread?',
    lang: 'en-GB',
    display: 'standalone',
    background_color: '#d5dadb',
    theme_color: '#143a5c',
    icons: [
      { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml' },
      { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
      { src: 'icon-512.png', sizes: '512x512', type: 'image/png' },
      { src: 'icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
    ],
  },
})

export default defineConfig({
  // Any folder of any server will do.
  base: './',
  plugins: [
    contentSecurityPolicy,
    workerSharesChunks,
    templatesWithoutIndentation,
    lateWithoutHelper,
    sentForEarly,
    offline,
  ],
  build: {
    modulePreload: false,
    rolldownOptions: { output: { codeSplitting: { groups: chunks, includeDependenciesRecursively: false } } },
  },
  // The search runs in a module worker, which becomes a chunk of its own.
  worker: { format: 'es' },
})
