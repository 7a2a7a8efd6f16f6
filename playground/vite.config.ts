import { defineConfig, type Plugin } from 'vite'
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

/** Sends for the worker, too, as soon as the page's address is read. */
const sentForEarly: Plugin = {
  name: 'sent-for-early',
  apply: 'build',
  transformIndexHtml: {
    order: 'post',
    handler(html, { bundle = {} }) {
      const chunks = Object.values(bundle).filter((part) => part.type === 'chunk')
      const needed = new Set<string>()
      const need = (file: string): void => {
        if (needed.has(file)) return
        needed.add(file)
        for (const other of chunks.find(({ fileName }) => fileName === file)?.imports ?? []) need(other)
      }
      for (const { name, fileName } of chunks) if (name === 'worker') need(fileName)
      return [...needed]
        .filter((file) => !html.includes(file))
        .map((file) => ({ tag: 'link', attrs: { rel: 'modulepreload', crossorigin: true, href: `./${file}` } }))
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
  plugins: [contentSecurityPolicy, workerSharesChunks, sentForEarly, offline],
  build: { modulePreload: { polyfill: false } },
  // The search runs in a module worker, which becomes a chunk of its own.
  worker: { format: 'es' },
})
