import { parseSync } from 'vite';

export type SyntaxNode = { type: string } & Record<string, unknown>;

export const isNode = (value: unknown): value is SyntaxNode =>
  typeof value === 'object' && value !== null && 'type' in value && typeof value.type === 'string';

export const isNamed = (value: unknown, name: string) =>
  isNode(value) && value.type === 'Identifier' && value.name === name;

/** Every node of a source text, outermost first; throws where the text is not TypeScript. */
export function nodesOf(file: string, source: string): SyntaxNode[] {
  const { program, errors } = parseSync(file, source);
  if (errors.length > 0) throw new Error(`${file}: ${errors.map(({ message }) => message).join('; ')}`);
  const nodes: SyntaxNode[] = [];
  const visit = (value: unknown) => {
    if (Array.isArray(value)) {
      for (const item of value) visit(item);
    } else if (isNode(value)) {
      nodes.push(value);
      for (const child of Object.values(value)) visit(child);
    }
  };
  visit(program.body);
  return nodes;
}
