/** What a person does on the pages, in their words: shared by the browser tests. */
import { readFile } from 'node:fs/promises';
import Papa from 'papaparse';
import type { Locator, Page } from 'playwright-core';
import type { Profile } from './chromium.ts';

export interface AnalyzerToSetUp {
  label: string;
  /** A fixed factor of the laboratory's procedure; computed for dry gas where it is left out. */
  fixedFactor?: string;
}

/** From the empty logbook to the bench: one supervisor, one 3 L syringe with 110 mL of dead space, one analyzer. */
export async function setUpLaboratory(
  profile: Pick<Profile, 'page' | 'at'>,
  analyzer: AnalyzerToSetUp = { label: 'Room 2' },
) {
  const { page } = profile;
  await page.goto(profile.at('/'));
  await page.getByLabel('Name').fill('Ada Example');
  await page.getByLabel('Initials').fill('AE');
  await page.getByLabel('Role').selectOption('supervisor');
  await page.getByRole('button', { name: 'Add me' }).click();
  await page.getByRole('heading', { name: '2. The syringe' }).waitFor();
  await page.getByLabel('Name').fill('Syringe A');
  await page.getByLabel('Dead space').fill('110');
  await page.getByRole('button', { name: 'Add syringe' }).click();
  await page.getByRole('heading', { name: '3. The analyzer' }).waitFor();
  await page.getByLabel('Name').fill(analyzer.label);
  if (analyzer.fixedFactor !== undefined) {
    await page.getByLabel('VA is converted').selectOption('fixed');
    await page.getByLabel('Fixed factor').fill(analyzer.fixedFactor);
  }
  await page.getByRole('button', { name: 'Add analyzer' }).click();
  await page.getByRole('heading', { name: 'Record a run' }).waitFor();
  await page.getByLabel('Analyzer', { exact: true }).selectOption({ label: analyzer.label });
}

export interface Typed {
  temperature: string;
  pressure: string;
  va: string;
  dlco: string;
}

export async function typeRun(page: Page, { temperature, pressure, va, dlco }: Typed) {
  await page.getByLabel('Temperature').fill(temperature);
  await page.getByLabel('Barometric pressure').fill(pressure);
  await page.getByLabel('Alveolar volume, VA').fill(va);
  await page.getByLabel('DLCO', { exact: true }).fill(dlco);
}

export async function recordRun(page: Page) {
  await page.getByRole('button', { name: 'Record run' }).click();
  // To the letter: "Not saved." is another message.
  await page.getByText('Saved.', { exact: true }).waitFor();
}

/** The same readings within a minute are asked about. */
export async function recordAgain(page: Page) {
  await page.getByRole('button', { name: 'Record run' }).click();
  const yes = page.getByRole('button', { name: 'Yes, record it' });
  const saved = page.getByText('Saved.', { exact: true });
  await yes.or(saved).first().waitFor();
  if (await yes.isVisible()) await yes.click();
  await saved.waitFor();
}

export const verdictPanel = (page: Page) => page.getByRole('region', { name: /verdict/i });

/** The panel with its reason open: the numbers behind the verdict are loaded when they are asked for. */
export async function verdictWithReason(page: Page) {
  const panel = verdictPanel(page);
  await panel.getByText('Why', { exact: true }).click();
  await panel.getByText('Conversion factor').waitFor();
  return panel;
}

/** The exported file as rows by column name. */
export async function exportedRows(page: Page): Promise<Record<string, string>[]> {
  await page.getByRole('link', { name: 'Records' }).click();
  const downloading = page.waitForEvent('download');
  await page.getByRole('button', { name: /as CSV/ }).click();
  const download = await downloading;
  const text = await readFile(await download.path(), 'utf8');
  const { data, errors } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true });
  if (errors.length > 0) throw new Error(errors.map(({ message }) => message).join('; '));
  return data;
}

/** By the line of words at the top of every page. */
export async function goTo(page: Page, screen: string) {
  await page
    .getByRole('navigation', { name: 'Screens' })
    .getByRole('link', { name: screen, exact: true })
    .click();
}

type Place = Pick<Profile, 'page' | 'at'>;

export interface PersonToAdd {
  name: string;
  initials: string;
  role: 'technologist' | 'supervisor';
}

export async function addPerson({ page, at }: Place, { name, initials, role }: PersonToAdd) {
  await page.goto(at('/equipment/new/person'));
  await page.getByLabel('Name').fill(name);
  await page.getByLabel('Initials').fill(initials);
  await page.getByLabel('Role').selectOption(role);
  await page.getByRole('button', { name: 'Add person' }).click();
  await page.getByRole('heading', { name, level: 1 }).waitFor();
}

/** Another analyzer of the laboratory, for the same syringe. */
export async function addAnalyzer({ page, at }: Place, { label, fixedFactor }: Required<AnalyzerToSetUp>) {
  await page.goto(at('/equipment/new/analyzer'));
  await page.getByLabel('Name').fill(label);
  await page.getByLabel('VA is converted').selectOption('fixed');
  await page.getByLabel('Fixed factor').fill(fixedFactor);
  await page.getByRole('button', { name: 'Add analyzer' }).click();
  await page.getByRole('heading', { name: label, level: 1 }).waitFor();
}

/** Opens a form of a record under Equipment by its button. */
export async function openRecordForm(page: Page, record: string | RegExp, form: string) {
  await goTo(page, 'Equipment');
  await page.getByRole('link', { name: record }).first().click();
  await page.getByRole('button', { name: form, exact: true }).click();
}

/** What stands under and beside a field, as a screen reader says it with the field. */
export function saidWith(field: Locator): Promise<string> {
  return field.evaluate((element) =>
    (element.getAttribute('aria-describedby') ?? '')
      .split(' ')
      .map((id) => document.getElementById(id)?.textContent ?? '')
      .join(' '),
  );
}

/** The day so many days from today, as a field of dates takes it. */
export function dayFromToday(days: number): string {
  const day = new Date();
  day.setDate(day.getDate() + days);
  const two = (part: number) => String(part).padStart(2, '0');
  return `${day.getFullYear()}-${two(day.getMonth() + 1)}-${two(day.getDate())}`;
}

export const lastRuns = (page: Page, analyzer: string) =>
  page.getByRole('region', { name: new RegExp(`^Last runs of ${analyzer}`) }).first();

/** On the page of a failure: what was done about it, by whoever is in hand. */
export async function writeAction(page: Page, what: string, writtenBy?: string) {
  await page.getByRole('button', { name: 'Write down an action…' }).click();
  const form = page.getByRole('form', { name: 'Write down what was done' });
  await form.getByLabel('What was done').fill(what);
  await form.getByLabel('Done by').selectOption({ label: 'Somebody else, such as service' });
  if (writtenBy !== undefined) await form.getByLabel('Written by').selectOption({ label: writtenBy });
  await form.getByRole('button', { name: 'Write it down' }).click();
  await form.waitFor({ state: 'detached' });
}

/** On the page of a failure: the window as it is proposed was looked at, and nobody was tested in it. */
export async function writeLookBack(page: Page, supervisor: string, from?: string) {
  await page.getByRole('button', { name: 'Write down the review…' }).click();
  const form = page.getByRole('form', { name: 'Write down the review' });
  if (from !== undefined) await form.getByLabel('Looked at from').fill(from);
  await form.getByLabel('Outcome').selectOption('nobody-tested');
  await form.getByLabel('Supervisor').selectOption({ label: supervisor });
  await form.getByRole('button', { name: 'Write it down' }).click();
  await form.waitFor({ state: 'detached' });
}

/** In the form that closes a failure, which stands there once nothing is missing. */
export async function sayWhy(page: Page, { cause, reason }: { cause: string; reason: string }) {
  await page.getByLabel('What the cause was').fill(cause);
  await page.getByLabel('Why it may be closed').fill(reason);
}
