/** All that may stand at the top of the repository: what a newcomer sees first. */
const topLevel = [
  '.biome.json',
  '.ci',
  '.gitignore',
  '.jscpd.json',
  '.knip.json',
  '.pictures',
  '.scripts',
  'DEVELOPERS.md',
  'LICENSE',
  'README.md',
  'index.html',
  'package-lock.json',
  'package.json',
  'public',
  'src',
  'tests',
  'tsconfig.json',
  'vite.config.ts',
];

/** What no file may say: it would be true on one computer only. */
const tellTales: readonly (readonly [RegExp, string])[] = [
  [/(?<![\w.~-])\/(?:work|tmp|root)\/[\w.-]/, 'a path of one machine'],
  [/(?<![\w.~-])\/(?:home|Users)\/[\w.-]+\//, 'a path of one person'],
  [/\b[A-Z]:\\{1,2}(?:Users|work)\\/i, 'a path of one person'],
  [
    /"resolved":\s*"(?:https?|file):/,
    'the address of a registry (omit-lockfile-registry-resolved keeps it out)',
  ],
  [/https?:\/\/(?:registry|npm|proxy|mirror)\.[\w.-]+/i, 'the address of a registry'],
];

/** Tracked paths whose first part is not allowed for. */
export function strays(files: readonly string[]): string[] {
  const first = files.map((file) => file.split('/')[0] ?? file);
  return [...new Set(first)].filter((name) => !topLevel.includes(name)).sort();
}

/** What a text gives away about the computer it was written on, in words. */
export function giveaways(text: string): string[] {
  return tellTales.flatMap(([pattern, what]) => {
    const match = pattern.exec(text);
    return match === null ? [] : [`${what}: ${match[0]}`];
  });
}
