import { Link } from 'wouter';
import { LineState } from '../charting/lineState.tsx';
import { type AnalyzerControls, isShownBy, type KindLines } from './buildControlList.ts';
import type { Asked } from './controlsAddress.ts';

/** The left page: analyzers, and under each its controls and charted checks with how they came out last. */
export function ControlList({ groups, asked }: { groups: readonly AnalyzerControls[]; asked: Asked | null }) {
  const inUse = groups.filter(({ retired }) => !retired);
  const retired = groups.filter((group) => group.retired);
  return (
    <nav aria-label="Controls" className="stack stack--loose">
      <h2>Controls of each analyzer</h2>
      {groups.length === 0 ? (
        <p className="quiet">Here will stand each analyzer with its controls and checks.</p>
      ) : null}
      {inUse.map((group) => (
        <AnalyzerGroup asked={asked} group={group} key={group.analyzerId} />
      ))}
      {retired.length > 0 ? (
        <div className="group stack stack--loose">
          <h2>Retired</h2>
          {retired.map((group) => (
            <AnalyzerGroup asked={asked} group={group} key={group.analyzerId} />
          ))}
        </div>
      ) : null}
    </nav>
  );
}

function AnalyzerGroup({ group, asked }: { group: AnalyzerControls; asked: Asked | null }) {
  return (
    <section className="stack series-group">
      <h3>{group.label}</h3>
      {group.kinds.map((kind) => (
        <Kind asked={asked} isInUse={!group.retired} key={kind.kind} kind={kind} />
      ))}
    </section>
  );
}

function Kind({ kind, asked, isInUse }: { kind: KindLines; asked: Asked | null; isInUse: boolean }) {
  const { name, due, state, lines, begin } = kind;
  return (
    <div className="control-kind">
      <h4>
        {name}{' '}
        {due === '' ? null : (
          <span className="control-kind__due" data-state={state}>
            {due}
          </span>
        )}
      </h4>
      {lines.length === 0 && isInUse ? (
        <Link className="control-kind__begin" href={begin.href}>
          {begin.label}
        </Link>
      ) : (
        <ul className="choose-list">
          {lines.map((line) => (
            <li key={line.path}>
              <Link aria-current={isShownBy(line, asked) ? 'true' : undefined} href={line.path}>
                <LineState
                  below={line.figures}
                  figure={<span className="quiet small">{line.since}</span>}
                  line={line}
                  standing={line.standing}
                />
              </Link>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
