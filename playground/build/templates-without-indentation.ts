import type { ESTree, Plugin } from 'vite'

/** What the source of a template is set in is no part of the page: line breaks with their indentation become one space. */
export const templatesWithoutIndentation: Plugin = {
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
