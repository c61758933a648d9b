/**
 * Stryker plugin: leaves sentences for people alone. What a diagnostic says and where a cost term comes
 * from is read over by a person; a test that repeated the wording would check nothing. Strings that steer
 * the program (kinds, codes, fits, names of terms) are mutated like everything else.
 */

/** Properties whose values are prose. */
const PROSE = new Set(['message', 'hint', 'source', 'unit']);

/** Functions whose arguments are prose. */
const SPEAKERS = new Set(['badTuning', 'badInstrument', 'RangeError', 'Error']);

const isProse = node =>
  (node.type === 'ObjectProperty' && PROSE.has(node.key.name)) ||
  ((node.type === 'CallExpression' || node.type === 'NewExpression') && SPEAKERS.has(node.callee.name));

export const strykerPlugins = [
  {
    kind: 'Ignore',
    name: 'prose',
    value: {
      shouldIgnore: ({ node, parentPath }) =>
        (node.type === 'StringLiteral' || node.type === 'TemplateLiteral') &&
        parentPath &&
        isProse(parentPath.node)
          ? 'a sentence for people'
          : undefined,
    },
  },
];
