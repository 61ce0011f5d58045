import type { ReactNode } from 'react';
import { Link } from 'wouter';
import { defaultControlPolicy, ruleIds } from '../../core/index.ts';
import type { EntryBody } from '../../journal/entries.ts';
import type { Analyzer } from '../../journal/logbook.ts';
import { noticeHref } from '../deskRoutes.ts';
import { policyInForce } from '../judgedBy.ts';
import { useLogbook } from '../logbookContext.tsx';
import { changedFields } from '../parts/fieldsInWords.ts';
import { ruleWords } from '../parts/words.ts';
import { policyInWords } from '../policyWords.ts';
import { PolicyFields } from './policyFields.tsx';
import { SetBy } from './setBy.tsx';
import {
  differsFromUsual,
  type PolicyDraft,
  policyDraft,
  policyEntryInForce,
  policyWarnings,
  readPolicy,
  setPolicy,
} from './setPolicy.ts';
import { settingHistory } from './settingHistory.ts';
import { SettingPage } from './settingPage.tsx';

/** `at`: the ISO 8601 instant that is looked at. */
export function PolicyPage({ analyzer, at }: { analyzer: Analyzer; at: string }) {
  const { logbook } = useLogbook();
  const { id, description, retired } = analyzer;
  const policy = policyInForce(logbook, { analyzerId: id, madeAt: at });
  const set = policyEntryInForce(logbook, id, at);
  const rows = policyInWords(policy);
  const entries = logbook.policies.filter(({ body }) => body.analyzerId === id);
  const differs = differsFromUsual(policy);
  return (
    <SettingPage<PolicyDraft, EntryBody<'policy-set'>['policy']>
      change="Set the policy…"
      form={
        retired
          ? null
          : {
              title: `Set the policy of ${description.label}`,
              explanation:
                'From now on: runs made before keep the rules of their day. With the next run every pattern, EWMA and CUSUM begins anew; the accepted runs stay, and a failure that is open stays open.',
              action: 'Set from now on',
              initial: policyDraft(policy),
              usual: { name: 'the usual policy', draft: policyDraft(defaultControlPolicy) },
              read: readPolicy,
              fields: (props) => <PolicyFields {...props} />,
              isInForce: (value) => changedFields(rows, policyInWords(value)).length === 0,
              warningsAbout: policyWarnings,
              makeEntries: (value, by, reason) => setPolicy(id, value, new Date().toISOString(), by, reason),
              setting: entries.at(-1)?.id,
            }
      }
      history={settingHistory(
        entries,
        policyInWords(defaultControlPolicy),
        ({ body }) => policyInWords(body.policy),
        'Policy set',
      )}
      method="rules"
      rows={rows.map(({ name, value }) => ({ name, value: withRuleWords(name, value) }))}
      standing={
        <>
          {set ? <SetBy entry={set} what="Set" /> : <p>Nobody has set it: the usual policy holds.</p>}
          {retired ? <p>The analyzer is retired: its policy stays as it is.</p> : null}
          <p>
            <Link href={noticeHref(id)}>What would these rules notice?</Link>
          </p>
          {differs.length > 0 ? <p>Differs from the usual in: {differs.join(', ')}.</p> : null}
        </>
      }
      title={`Policy of ${description.label}`}
    />
  );
}

/** A rule's row says what makes it fire as well. */
function withRuleWords(name: string, value: string): ReactNode {
  const rule = ruleIds.find((each) => each === name);
  if (rule === undefined) return value;
  return (
    <>
      {value} <span className="quiet small">{ruleWords[rule]}</span>
    </>
  );
}
