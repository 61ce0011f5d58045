import { isNamed, isNode, nodesOf, type SyntaxNode } from './syntax.ts';

/** Layers whose results depend on what they are given and on nothing else: the same journal is the same logbook. */
const pureLayers = ['core/', 'journal/', 'exchange/', 'demo/'];

const impureMembers: Readonly<Record<string, readonly string[]>> = {
  Date: ['now'],
  Math: ['random'],
  crypto: ['randomUUID', 'getRandomValues'],
};

function impurityIn(node: SyntaxNode): string | null {
  if (node.type === 'NewExpression' || node.type === 'CallExpression') {
    const bare = Array.isArray(node.arguments) && node.arguments.length === 0;
    return bare && isNamed(node.callee, 'Date') ? 'Date() reads the clock' : null;
  }
  if (node.type !== 'MemberExpression' || !isNode(node.property)) return null;
  const { name } = node.property;
  if (typeof name !== 'string') return null;
  // Numbers and dates are written for people in the views; elsewhere a locale would change what a file says.
  if (name.startsWith('toLocale')) return `${name} depends on the locale`;
  for (const [object, members] of Object.entries(impureMembers)) {
    if (isNamed(node.object, object) && members.includes(name)) {
      return `${object}.${name} gives something else each time`;
    }
  }
  return null;
}

/** Where a pure layer reads the clock, draws lots or asks for the locale; the linter keeps it off the browser. */
export function impurities(sources: ReadonlyMap<string, string>): string[] {
  const found: string[] = [];
  for (const [file, source] of sources) {
    if (!/\.tsx?$/.test(file) || !pureLayers.some((layer) => file.startsWith(layer))) continue;
    for (const node of nodesOf(file, source)) {
      const impurity = impurityIn(node);
      if (impurity !== null) found.push(`${file}: ${impurity}`);
    }
  }
  return found;
}
