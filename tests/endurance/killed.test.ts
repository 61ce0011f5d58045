import { mkdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, inject, it } from 'vitest';
import { artifactsDir } from '../../.scripts/command.mjs';
import { checkChains } from '../../src/journal/chain.ts';
import { makeProfileDir, removeProfile } from '../browser/chromium.ts';
import { readRows } from '../browser/rawStorage.ts';
import { setUpLaboratory } from '../browser/steps.ts';
import { saveRuns } from './benchDriver.ts';
import { type KillableChromium, startChromium } from './killableChromium.ts';

const isLong = process.env.ENDURANCE === '1';
const rounds = isLong ? 40 : 4;
const savesPerRound = isLong ? 50 : 25;
/** From the press of the button: some kills come before the commit, some in it, some after. */
const longestWaitMs = 60;

const at = (route: string) => `${inject('baseUrl')}/#${route}`;

/** What a script is told whose browser is gone. */
const killed = /closed|crashed|disconnected/i;

/** The comments of the stored runs, each the number of a save. */
function savedNumbers(rows: readonly unknown[]): number[] {
  return rows
    .map((row) => Object(row))
    .filter(({ kind }) => kind === 'run-recorded')
    .map(({ body }) => Number(/^save (\d+)$/.exec(body.comment)?.[1]));
}

async function openBench({ page }: KillableChromium) {
  await page.goto(at('/bench'));
  await page.getByRole('heading', { name: 'Record a run' }).waitFor();
  // The kept draft, which names the analyzer, is back.
  await expect.poll(() => page.getByLabel('Analyzer', { exact: true }).inputValue()).not.toBe('');
}

describe('a browser that is killed while it saves', () => {
  it(
    `loses no acknowledged run, breaks no chain and doubles nothing in ${rounds} rounds of ${savesPerRound} saves`,
    async () => {
      const profileDir = await makeProfileDir();
      const acknowledged = new Set<number>();
      const figures = {
        rounds,
        saves: rounds * savesPerRound,
        kills: 0,
        unacknowledgedButStored: 0,
        retried: 0,
      };
      const startedAt = performance.now();
      let running: KillableChromium | null = null;

      /** What every start must find. */
      const lookAt = async (chromium: KillableChromium): Promise<Set<number>> => {
        const rows = await readRows(chromium.page);
        expect((await checkChains(rows)).breaks).toEqual([]);
        const numbers = savedNumbers(rows);
        const saved = new Set(numbers);
        expect(numbers, 'each save once').toHaveLength(saved.size);
        const lost = [...acknowledged].filter((number) => !saved.has(number));
        expect(lost, 'acknowledged and lost').toEqual([]);
        figures.unacknowledgedButStored += [...saved].filter((number) => !acknowledged.has(number)).length;
        for (const number of saved) acknowledged.add(number);
        return saved;
      };

      try {
        for (let round = 1; round <= rounds; round++) {
          const chromium = await startChromium(profileDir);
          running = chromium;
          const { page } = chromium;
          if (round === 1) {
            await setUpLaboratory({ page, at });
            await page.waitForTimeout(500); // the draft is kept a moment after the last choice
          } else {
            await openBench(chromium);
          }
          const saved = await lookAt(chromium);
          const kept = /^save (\d+)$/.exec(await page.getByLabel('Comment').inputValue())?.[1];
          if (kept !== undefined) {
            expect(saved.has(Number(kept)), 'what is stored is not asked for again').toBe(false);
            figures.retried += 1;
          }
          const numbers = Array.from({ length: round * savesPerRound }, (_, index) => index + 1).filter(
            (number) => !saved.has(number),
          );
          const fatal = numbers[Math.floor(Math.random() * numbers.length)];
          await page.exposeFunction('heardSaved', (number: number) => void acknowledged.add(number));
          await page.exposeFunction('heardBegun', (number: number) => {
            if (number === fatal) setTimeout(chromium.kill, Math.random() * longestWaitMs);
          });
          const outcome = await page.evaluate(saveRuns, { numbers }).then(() => 'all saved', String);
          // A fault of the page would otherwise wait for a kill that does not come.
          if (!killed.test(outcome)) chromium.kill();
          await chromium.ended;
          // It was the kill that ended it, unless the last save was the fatal one: a fault of the page says so in other words.
          if (outcome !== 'all saved') expect(outcome).toMatch(killed);
          figures.kills += 1;
        }
        const last = await startChromium(profileDir);
        running = last;
        await openBench(last);
        const saved = await lookAt(last);
        const all = Array.from({ length: figures.saves }, (_, index) => index + 1);
        await last.page.exposeFunction('heardSaved', (number: number) => void acknowledged.add(number));
        await last.page.exposeFunction('heardBegun', () => undefined);
        await last.page.evaluate(saveRuns, { numbers: all.filter((number) => !saved.has(number)) });
        const after = await lookAt(last);
        expect([...after].sort((a, b) => a - b)).toEqual(all);
        await last.close();
      } finally {
        running?.kill();
        await running?.ended;
        await removeProfile(profileDir);
      }
      const seconds = Math.round((performance.now() - startedAt) / 1000);
      await mkdir(artifactsDir, { recursive: true });
      await writeFile(
        path.join(artifactsDir, 'endurance-killed.json'),
        `${JSON.stringify({ ...figures, seconds })}\n`,
      );
      expect(figures.kills).toBe(rounds);
    },
    isLong ? 3_600_000 : 120_000,
  );
});
