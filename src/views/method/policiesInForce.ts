/** By what the analyzers in use are judged today: those that are judged alike stand together. Pure. */
import { type ControlPolicy, defaultControlPolicy } from '../../core/index.ts';
import type { Logbook } from '../../journal/logbook.ts';
import { policyInForce } from '../judgedBy.ts';
import type { FieldInWords } from '../parts/fieldsInWords.ts';
import { policyInWords } from '../policyWords.ts';
import { facts, type MethodBlock } from './methodModel.ts';

export interface PolicyGroup {
  /** Of the analyzers; none where no analyzer is in use. */
  labels: readonly string[];
  policy: ControlPolicy;
}

/** `at`: ISO 8601 instant. Without an analyzer in use, the policy that every analyzer begins with. */
export function policiesInForce(logbook: Pick<Logbook, 'analyzers' | 'policies'>, at: string): PolicyGroup[] {
  const groups = new Map<string, { labels: string[]; policy: ControlPolicy }>();
  for (const { id, description, retired } of logbook.analyzers.values()) {
    if (retired !== null) continue;
    const policy = policyInForce(logbook, { analyzerId: id, madeAt: at });
    const key = JSON.stringify(policyInWords(policy));
    const known = groups.get(key);
    if (known) known.labels.push(description.label);
    else groups.set(key, { labels: [description.label], policy });
  }
  return groups.size > 0 ? [...groups.values()] : [{ labels: [], policy: defaultControlPolicy }];
}

interface SaidAlike<T> {
  labels: readonly string[];
  said: T;
}

/** What is to be said of each, those of which the same is said together; that of the most analyzers first. */
export function saidAlike<T>(
  groups: readonly PolicyGroup[],
  say: (policy: ControlPolicy) => T,
): SaidAlike<T>[] {
  const bySaying = new Map<string, SaidAlike<T>>();
  for (const { labels, policy } of groups) {
    const said = say(policy);
    const key = JSON.stringify(said);
    bySaying.set(key, { said, labels: [...(bySaying.get(key)?.labels ?? []), ...labels] });
  }
  return [...bySaying.values()].sort((one, other) => other.labels.length - one.labels.length);
}

/** What holds for most, and whoever differs by name: `warning; Room 2: off`. */
export function inForce(groups: readonly PolicyGroup[], write: (policy: ControlPolicy) => string): string {
  return saidAlike(groups, write)
    .map(({ labels, said }, index) => (index === 0 ? said : `${labels.join(', ')}: ${said}`))
    .join('; ');
}

/** A list of figures for all analyzers, or one for each that differs. */
export function factsInForce(
  lead: string,
  groups: readonly PolicyGroup[],
  write: (policy: ControlPolicy) => readonly FieldInWords[],
): MethodBlock[] {
  const alike = saidAlike(groups, write);
  return alike.map(({ labels, said }) =>
    facts(alike.length === 1 ? `${lead}, on every analyzer` : `${lead}: ${labels.join(', ')}`, said),
  );
}
