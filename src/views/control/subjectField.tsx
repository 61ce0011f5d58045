import { Link } from 'wouter';
import type { Logbook, Subject } from '../../journal/logbook.ts';
import { subjectSettingAt } from '../../journal/standing.ts';
import { subjectsHref } from '../deskRoutes.ts';
import { useLogbook } from '../logbookContext.tsx';
import { asSentence } from '../parts/asSentence.ts';
import { type Choice, ChoiceField } from '../parts/field.tsx';
import { day } from '../parts/figures.ts';
import { Notice } from '../parts/notice.tsx';
import { type ControlForm, troubleOf } from './useControlForm.ts';

interface Props {
  form: ControlForm;
  subjectId: string;
}

/** Who was tested, by their code. */
export function SubjectField({ form, subjectId }: Props) {
  const { choices } = useOffered(form, subjectId);
  return (
    <ChoiceField
      choices={choices}
      error={troubleOf(form, 'subjectId')}
      label="Subject"
      onChoice={(chosen) => form.change({ subjectId: chosen })}
      value={subjectId}
      warning={form.reading.warnings.subjectId}
    />
  );
}

/** Who is not tested at that time and so not offered, each with the reason; or that there is nobody yet. */
export function Absent({ form, subjectId }: Props) {
  const { logbook } = useLogbook();
  const { absent } = useOffered(form, subjectId);
  if (logbook.subjects.size === 0) return <NoSubject />;
  if (absent.length === 0) return null;
  return (
    <p className="quiet small">
      Not tested at the moment: {absent.join(' ')} <Link href={subjectsHref}>Subjects under Equipment</Link>
    </p>
  );
}

function useOffered(form: ControlForm, subjectId: string) {
  const { logbook } = useLogbook();
  const at = form.reading.madeAt ?? new Date(form.unlessTyped).toISOString();
  const kept = form.keeps?.kind === 'biological' ? form.keeps.subjectId : '';
  return offeredSubjects(logbook, at, [kept, subjectId]);
}

function NoSubject() {
  return (
    <Notice title="No subject is in this logbook yet." tone="quiet">
      <p>
        A biological control is a healthy person of the laboratory, known here by a code and nothing else.{' '}
        <Link href={subjectsHref}>Add one under Equipment</Link>; what is typed here stays meanwhile.
      </p>
    </Notice>
  );
}

/** `at`: ISO 8601 instant. `always`: ids that are offered however it stands with them. */
function offeredSubjects(
  logbook: Pick<Logbook, 'subjects' | 'subjectStates'>,
  at: string,
  always: readonly string[],
): { choices: Choice<string>[]; absent: string[] } {
  const choices: Choice<string>[] = [];
  const excluded: Choice<string>[] = [];
  const absent: string[] = [];
  for (const subject of logbook.subjects.values()) {
    const { id, description, retired } = subject;
    const choice = { value: id, label: labelOf(subject) };
    const setting = subjectSettingAt(logbook, id, at);
    const hasLeft = retired !== null && retired.at <= at;
    if (setting?.state === 'excluded' && !hasLeft) excluded.push({ ...choice, group: 'Counts in no mean' });
    else if (always.includes(id) || (!hasLeft && setting?.state !== 'paused')) choices.push(choice);
    else if (!hasLeft && setting !== undefined) {
      absent.push(`${description.code}, paused since ${day(setting.from)}: ${asSentence(setting.reason)}`);
    }
  }
  return { choices: [...choices, ...excluded], absent };
}

const labelOf = ({ description: { code, note } }: Subject) => (note === '' ? code : `${code}, ${note}`);
