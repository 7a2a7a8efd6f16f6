const written = ({ node }) => (node.quasis ? node.quasis.map((q) => q.value.raw).join('') : node.value)
const ofError = ({ parent }) => parent.type === 'NewExpression' && /Error$/.test(parent.callee.name ?? '')

/**
 * The wording of a failure is no contract, its code is: sentences are left as they are, those of messages.ts and those
 * that errors of programming carry. A sentence is a string with a blank in it, and what stands between its words.
 */
export const strykerPlugins = [
  {
    kind: 'Ignore',
    name: 'wording',
    value: {
      shouldIgnore(path) {
        if (!path.isStringLiteral() && !path.isTemplateLiteral()) return undefined
        const spoken = path.hub.file.opts.filename.endsWith('/messages.ts') || ofError(path)
        return spoken && written(path).includes(' ') ? 'the wording of a failure' : undefined
      },
    },
  },
]
