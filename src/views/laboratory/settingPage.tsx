import { type ReactNode, useRef, useState } from 'react';
import { Link } from 'wouter';
import { methodHref } from '../deskRoutes.ts';
import { FigureList } from '../parts/figureList.tsx';
import { History, type HistoryLine } from '../parts/history.tsx';
import type { MethodPlace } from '../terms.ts';
import { SettingForm, type SettingFormProps } from './settingForm.tsx';

/** The right page: what is in force, where it comes from, its form, and how it came to be so. */
export function SettingPage<T extends object, V>({
  title,
  standing,
  rows,
  change,
  form,
  history,
  method,
}: {
  title: string;
  /** Who set it and since when, or what the usual one rests on. */
  standing: ReactNode;
  rows: readonly { name: string; value: ReactNode }[];
  /** The button that opens the form. */
  change: string;
  /** Null where nothing can be set any more. */
  form: SettingFormProps<T, V> | null;
  history: readonly HistoryLine[];
  /** The part of the method page that tells what is made of it; left out where nothing is computed by it. */
  method?: MethodPlace;
}) {
  const [isOpen, setOpen] = useState(false);
  const heading = useRef<HTMLHeadingElement>(null);
  const close = () => {
    setOpen(false);
    // The form that had the focus goes: reading goes on with what is now in force.
    heading.current?.focus();
  };
  return (
    <article className="stack stack--loose">
      <div className="stack">
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {standing}
      </div>
      <FigureList rows={rows} />
      {form === null ? null : isOpen ? (
        <div className="group">
          <SettingForm {...form} onDone={close} />
        </div>
      ) : (
        <div className="line">
          <button onClick={() => setOpen(true)} type="button">
            {change}
          </button>
        </div>
      )}
      {method === undefined ? null : (
        <p className="screen-only">
          <Link href={methodHref(method)}>How the numbers are made</Link>
        </p>
      )}
      {history.length > 0 ? <History lines={history} /> : null}
    </article>
  );
}
