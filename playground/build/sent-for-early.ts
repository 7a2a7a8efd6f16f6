import type { Plugin } from 'vite'

/** Sends for the worker, too, as soon as the page's address is read. */
export const sentForEarly: Plugin = {
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
