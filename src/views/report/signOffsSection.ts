/** The sign-offs that touch a period, and what each signature is worth today. Pure. */
import { initialsIn } from '../amendments.ts';
import { civilDay, dayAndTime } from '../parts/figures.ts';
import { signatureSentence } from '../parts/signatureSentence.ts';
import { type Section, section, words } from './reportModel.ts';
import type { Period, ReportSources } from './reportSources.ts';

export function signOffsSection(
  { from, to }: Period,
  { logbook, signatures }: ReportSources,
): readonly Section[] {
  const touching = logbook.signOffs.filter(({ body }) => body.to >= from && body.from <= to);
  if (touching.length === 0) {
    return section('sign-offs', 'Sign-offs', [words('No sign-off touches this period.')]);
  }
  return section('sign-offs', 'Sign-offs', [
    words(
      'Each covers every entry written up to it that none before it covers; its dates are what the supervisor called the period.',
      'quiet',
    ),
    {
      kind: 'table',
      id: 'sign-offs',
      caption: 'Sign-offs that touch the period',
      columns: [
        { head: 'Period', width: 22 },
        { head: 'Signed', width: 19 },
        { head: 'By', width: 7 },
        { head: 'Comment' },
        { head: 'Signature', width: 24 },
      ],
      rows: touching.map(({ body, at, zone, by, hash }) => {
        const check = signatures?.find(({ entry }) => entry.hash === hash);
        return [
          `${civilDay(body.from)} to ${civilDay(body.to)}`,
          dayAndTime(at, zone),
          initialsIn(logbook.technologists, by),
          body.comment === '' ? '–' : body.comment,
          check === undefined ? 'Being verified.' : signatureSentence(check, logbook),
        ];
      }),
    },
  ]);
}
