/** What every style sheet keeps to: one set of tokens, and no sheet that changes what another one draws. */

/** Colours by any other name than a token's. System colours stand in the tokens alone, with all others. */
const literalColour =
  /#[0-9a-f]{3,8}\b|\b(?:rgb|hsl|hwb|lab|lch|oklab|oklch)a?\(|:\s*(?:black|white|red|green|blue|gr[ae]y)\b|\b(?:Canvas|CanvasText|Highlight|HighlightText|GrayText|LinkText)\b/i;

const withoutComments = (css: string) => css.replace(/\/\*[\s\S]*?\*\//g, '');

/** The declarations of a sheet that name a colour themselves. */
export function literalColours(css: string): string[] {
  return declarationsOf(css).filter((declaration) => literalColour.test(declaration));
}

/** The declarations that set type in a size of their own. */
export function literalSizes(css: string): string[] {
  return declarationsOf(css).filter(
    (declaration) =>
      /^font(?:-size)?:/.test(declaration) &&
      /\d(?:px|pt|r?em|%)/.test(declaration.replace(/calc\(.*\)/, '')),
  );
}

const declarationsOf = (css: string) =>
  [...withoutComments(css).matchAll(/(?<=[{;]\s*)([\w-]+:[^;{}]+);/g)].map(
    ([, declaration = '']) => declaration,
  );

/** Every selector of a sheet by itself; what `:is(…)` holds stays with it. */
export function selectorsOf(css: string): string[] {
  return [...withoutComments(css).matchAll(/([^{};]+)\{/g)]
    .map(([, head = '']) => head.trim())
    .filter((head) => !head.startsWith('@') && !/^(?:from|to|\d+%)/.test(head))
    .flatMap((head) => head.split(/,(?![^(]*\))/))
    .map((selector) => selector.trim());
}

const classesIn = (selector: string) => [
  ...new Set([...selector.matchAll(/\.([a-z][\w-]*)/gi)].map(([, name = '']) => name)),
];

/**
 * Classes that two sheets give a look of their own: which one holds would depend on the screens looked at before. A sheet
 * may change another's part within a class of its own.
 */
export function sharedClasses(sheets: ReadonlyMap<string, string>): string[] {
  const homes = new Map<string, Set<string>>();
  for (const [file, css] of sheets) {
    for (const selector of selectorsOf(css)) {
      const [only, ...others] = classesIn(selector);
      if (only === undefined || others.length > 0) continue;
      homes.set(only, (homes.get(only) ?? new Set()).add(file));
    }
  }
  return [...homes]
    .filter(([, files]) => files.size > 1)
    .map(([name, files]) => `.${name}: ${[...files].sort().join(', ')}`);
}

/** Selectors of elements alone: once its screen was looked at, such a sheet would change every other. */
export function bareSelectors(css: string): string[] {
  return selectorsOf(css).filter((selector) => !/[.#[]/.test(selector));
}

/** Tokens that a sheet uses and none declares. */
export function undeclaredTokens(sheets: ReadonlyMap<string, string>): string[] {
  const all = [...sheets.values()].map(withoutComments).join('\n');
  const declared = new Set([...all.matchAll(/(--[\w-]+)\s*:/g)].map(([, name]) => name));
  const used = new Set([...all.matchAll(/var\((--[\w-]+)\s*\)/g)].map(([, name = '']) => name));
  return [...used].filter((name) => !declared.has(name)).sort();
}

/** Classes with a look that no source names. */
export function unusedClasses(sheets: ReadonlyMap<string, string>, sources: string): string[] {
  const names = new Set([...sheets.values()].flatMap((css) => selectorsOf(css).flatMap(classesIn)));
  return [...names].filter((name) => !new RegExp(`(?<![\\w-])${name}(?![\\w-])`).test(sources)).sort();
}
