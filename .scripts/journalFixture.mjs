// A journal as this release writes it, one entry of every kind at least, for a test that opens it for ever:
//   node .scripts/journalFixture.mjs
// Run it only before a release: once a release has written a fixture it is never made anew. What a later release writes
// differently goes into a fixture of its own, journal-v4.jsonl and so on. The signing key, and what follows from it, is
// another one each time.
import { mkdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { createServer } from 'vite';
import { projectRoot } from './command.mjs';

const fixture = path.join(projectRoot, 'tests', 'fixtures', 'journal-v3.jsonl');

/** The invented laboratory of the demonstration, always the same. */
const invented = { seed: 20_260_601, endAt: Date.UTC(2026, 5, 1, 12), zone: 'Europe/Oslo' };
/** Its people, syringes and analyzers, and the first runs of each. */
const entriesOfDemonstration = 14;
const reason = 'For the record of how this kind is written.';

const server = await createServer({
  root: projectRoot,
  configFile: false,
  logLevel: 'error',
  server: { middlewareMode: true, hmr: false },
  appType: 'custom',
  optimizeDeps: { noDiscovery: true },
});
try {
  const { demonstrationEntries } = await server.ssrLoadModule('/src/demo/laboratory.ts');
  const { hashEntry, sealEntry } = await server.ssrLoadModule('/src/journal/chain.ts');
  const { entryKinds } = await server.ssrLoadModule('/src/journal/entries.ts');
  const { ruleIds } = await server.ssrLoadModule('/src/core/index.ts');
  const { keyAlgorithm, signatureAlgorithm, signedBytes } =
    await server.ssrLoadModule('/src/journal/signature.ts');

  const begin = (await demonstrationEntries(invented)).slice(0, entriesOfDemonstration);
  /** @param {string} kind */
  const last = (kind) => {
    const found = begin.findLast((/** @type {{ kind: string }} */ entry) => entry.kind === kind);
    if (found === undefined) throw new Error(`The first entries of the demonstration have no "${kind}".`);
    return found.body;
  };
  const { by } = begin[0];
  const run = last('run-recorded');
  const { runId, origin: _origin, judged, ...content } = run;
  const { technologistId } = last('technologist-added');
  const ids = (() => {
    let made = 0;
    return () => `made-for-fixture-${String(++made).padStart(2, '0')}`;
  })();
  const batchId = ids();
  const keyId = ids();
  const { publicKey, privateKey } = await crypto.subtle.generateKey(keyAlgorithm, true, ['sign', 'verify']);
  const base64 = (/** @type {ArrayBuffer} */ bytes) => Buffer.from(bytes).toString('base64');
  const closure = {
    closureId: ids(),
    analyzerId: run.analyzerId,
    failures: [{ method: run.method, route: run.route, quantity: 'va', openedByRunId: runId }],
    closedAt: content.madeAt,
    reason,
    correctiveAction: 'Tubing replaced.',
  };
  const signed = signedBytes({ by, kind: 'failure-closed', body: closure });
  const signature = {
    keyId,
    value: base64(await crypto.subtle.sign(signatureAlgorithm, privateKey, signed)),
  };

  const cylinderId = ids();
  const cylinder = {
    label: 'Test gas',
    serial: '',
    contents: [
      { gas: 'CO', fraction: 0.003 },
      { gas: 'CH4', fraction: 0.003 },
      { gas: 'O2', fraction: 0.21 },
    ],
    expiresOn: '2027-06-01',
  };
  const check = {
    checkId: ids(),
    check: 'volume-check',
    analyzerId: run.analyzerId,
    syringeId: run.syringeId,
    technologistId,
    doneAt: content.madeAt,
    outcome: 'passed',
    volume: { expectedL: 3, readL: [2.98, 3.01, 3.02], limitFraction: 0.025 },
    validUntil: null,
    note: '',
    investigates: { runId, check: 'volume-check' },
  };
  const policy = {
    limits: 'rolling',
    baselineSize: 20,
    minimumSize: 10,
    smallSample: true,
    severity: Object.fromEntries(ruleIds.map((/** @type {string} */ rule) => [rule, 'warning'])),
    ewma: { lambda: 0.2, limit: 2.86 },
    cusum: { slack: 0.5, decision: 4.77 },
  };

  const subjectId = ids();
  const controlId = ids();
  const series = (/** @type {string} */ name, /** @type {number} */ value) => ({
    name,
    value,
    withinPublished: name === 'va' ? null : true,
    n: 12,
    mean: value,
    sd: 0.8,
    z: 0,
    signals: [{ rule: 'R-4s', severity: 'action', across: 'levels' }],
  });
  const ofAnalyzer = { madeAt: content.madeAt, analyzerId: run.analyzerId, technologistId, comment: '' };
  const edition = { edition: 'Usual', source: 'Invented for this file.' };
  const biological = {
    kind: 'biological',
    ...ofAnalyzer,
    subjectId,
    reading: { dlco: 27.4, dlcoUnit: 'mL/min/mmHg', vaL: 6.1, inspiredVolumeL: 4.9 },
    haemoglobin: { value: 14.2, unit: 'g/dL' },
    limits: { ...edition, fraction: 0.12, dlcoMlMinMmHg: 3, cv: 0.06 },
    investigates: { runId, check: 'biological-control' },
  };
  const simulator = {
    kind: 'simulator',
    ...ofAnalyzer,
    simulator: 'Simulator 1',
    levels: [
      {
        level: 'low',
        targetMlMinMmHg: 13.9,
        basis: { kind: 'certificate', dlco: 13.9, dlcoUnit: 'mL/min/mmHg' },
        reading: { dlco: 14.2, dlcoUnit: 'mL/min/mmHg' },
      },
      {
        level: 'high',
        targetMlMinMmHg: 27.8,
        basis: {
          kind: 'computed',
          inspired: { co: 0.003, tracer: 0.003 },
          alveolar: { co: 0.0012, tracer: 0.0021 },
          vaBtpsL: 4.5,
          breathHoldS: 10,
          barometricMmHg: 760,
        },
        cylinderId,
        reading: { dlco: 27.1, dlcoUnit: 'mL/min/mmHg', vaL: 4.4, breathHoldS: 10.1 },
      },
    ],
    limits: { ...edition, dlcoMlMinMmHg: 2 },
  };
  const controlJudged = {
    word: 'fail',
    establishing: false,
    failureOpen: true,
    series: [series('low', 0.3), series('high', -0.7)],
  };
  const limit = { fraction: 0.025, source: edition.source };
  const failedControl = {
    analyzerId: run.analyzerId,
    failures: [{ series: { kind: 'biological', subjectId, quantity: 'dlco' }, openedByControlId: controlId }],
    closedAt: content.madeAt,
    cause: 'A leak at the tubing.',
    correctiveAction: 'Tubing replaced.',
    lookBack: '',
    signature: null,
  };

  /** One of every kind that the beginning of the demonstration does not have, in an order that makes sense. */
  const drafts = [
    ['technologist-changed', { ...last('technologist-added'), role: 'supervisor', reason }],
    ['analyzer-changed', { ...last('analyzer-added'), place: 'Upper floor', reason }],
    ['syringe-changed', { ...last('syringe-added'), calibrationDueOn: null, reason }],
    ['analyzer-changed', { ...last('analyzer-added'), gasAnalysis: 'sample-bag', tracer: 'CH4', reason }],
    [
      'syringe-changed',
      {
        ...last('syringe-added'),
        certifiedVolumeL: 3.002,
        attachments: [{ name: 'Filter', volumeL: 0.055 }],
        reason,
      },
    ],
    ['cylinder-added', { cylinderId, ...cylinder }],
    ['cylinder-changed', { cylinderId, ...cylinder, expiresOn: null, reason }],
    [
      'cylinder-fitted',
      { fittingId: ids(), analyzerId: run.analyzerId, cylinderId, fittedAt: content.madeAt },
    ],
    [
      'cylinder-fitted',
      { fittingId: ids(), analyzerId: run.analyzerId, cylinderId: null, fittedAt: content.madeAt },
    ],
    ['cylinder-retired', { cylinderId, reason }],
    [
      'service-set',
      { serviceId: ids(), analyzerId: run.analyzerId, inService: false, from: content.madeAt, reason },
    ],
    [
      'service-set',
      { serviceId: ids(), analyzerId: run.analyzerId, inService: true, from: content.madeAt, reason },
    ],
    [
      'syringe-dropped',
      { dropId: ids(), syringeId: run.syringeId, droppedAt: content.madeAt, description: reason },
    ],
    [
      'run-recorded',
      {
        ...content,
        runId: ids(),
        origin: { kind: 'bench' },
        judged,
        temperatureAsTyped: { value: 71.6, unit: '°F' },
        attached: [{ name: 'Filter', volumeL: 0.055 }],
        investigates: { runId, check: 'repeat' },
      },
    ],
    ['check-done', check],
    [
      'check-done',
      {
        ...check,
        checkId: ids(),
        check: 'syringe-leak',
        analyzerId: null,
        syringeId: run.syringeId,
        volume: null,
        validUntil: '2027-06-01',
        investigates: null,
      },
    ],
    [
      'check-done',
      {
        ...check,
        checkId: ids(),
        volume: { ...check.volume, flowLPerS: [0.5, 3, 8] },
        linearity: [
          {
            gas: 'CO',
            unit: '%',
            fullScale: 0.33,
            points: [
              { expected: 0, read: 0.001 },
              { expected: 0.3, read: 0.299 },
            ],
            limitFraction: 0.005,
          },
        ],
        syringe: { nominalL: 3, measuredL: 3.004, limitFraction: 0.005, certificate: 'A-17', issuedBy: '' },
        barometer: { unit: 'hPa', read: 1012, reference: 1013.2, limitFraction: 0.025 },
      },
    ],
    [
      'schedule-set',
      {
        scheduleId: ids(),
        check: 'simulator',
        isMade: false,
        every: null,
        announceDays: 0,
        reason,
      },
    ],
    ['subject-added', { subjectId, code: 'B1', note: '' }],
    ['subject-changed', { subjectId, code: 'B1', note: 'Tested in the morning.', reason }],
    ['subject-state-set', { settingId: ids(), subjectId, state: 'excluded', from: content.madeAt, reason }],
    ['control-recorded', { controlId, control: biological, judged: controlJudged }],
    ['control-recorded', { controlId: ids(), control: simulator, judged: controlJudged }],
    [
      'control-amended',
      { amendmentId: ids(), controlId, control: biological, judged: controlJudged, reason },
    ],
    ['control-set-aside', { controlId, isSetAside: true, reason }],
    ['control-voided', { controlId, reason }],
    ['control-closed', { closureId: ids(), ...failedControl }],
    [
      'control-closed',
      {
        closureId: ids(),
        ...failedControl,
        failures: [{ series: { kind: 'simulator', level: 'high' }, openedByControlId: controlId }],
      },
    ],
    [
      'check-limits-adopted',
      {
        adoptionId: ids(),
        limits: {
          edition: 'Usual',
          biological: { fraction: 0.12, dlcoMlMinMmHg: 3, cv: 0.06, source: edition.source },
          simulator: { dlcoMlMinMmHg: 2, source: edition.source },
          volumeCalibration: limit,
          linearity: { ...limit, fraction: 0.005 },
          syringe: { ...limit, fraction: 0.005 },
          barometer: limit,
        },
        from: content.madeAt,
        reason,
      },
    ],
    [
      'gap-explained',
      {
        gapId: ids(),
        analyzerId: run.analyzerId,
        check: 'simulation',
        from: '2026-05-04',
        to: '2026-05-10',
        reason,
      },
    ],
    ['subject-retired', { subjectId, reason }],
    ['check-voided', { checkId: check.checkId, reason }],
    [
      'schedule-set',
      {
        scheduleId: ids(),
        check: 'linearity',
        isMade: true,
        every: { unit: 'months', count: 6 },
        announceDays: 14,
        reason,
      },
    ],
    [
      'laboratory-described',
      {
        descriptionId: ids(),
        name: 'Invented laboratory',
        decimalMark: 'comma',
        dateForm: 'dd.mm.yyyy',
        clock: '24',
        temperatureUnit: '°C',
        pressureUnit: 'hPa',
        dlcoUnit: 'mmol/min/kPa',
        reason,
      },
    ],
    ['limits-adopted', { adoptionId: ids(), limits: content.limits, from: content.madeAt, reason }],
    ['policy-set', { policyId: ids(), analyzerId: run.analyzerId, policy, from: content.madeAt, reason }],
    [
      'event-recorded',
      {
        eventId: ids(),
        analyzerId: run.analyzerId,
        happenedAt: content.madeAt,
        type: 'part',
        description: reason,
      },
    ],
    ['run-amended', { amendmentId: ids(), runId, run: { ...content, comment: 'Amended.' }, judged, reason }],
    ['run-voided', { runId, reason }],
    [
      'key-registered',
      {
        keyId,
        technologistId: by,
        algorithm: 'ECDSA-P256-SHA256',
        publicKey: base64(await crypto.subtle.exportKey('spki', publicKey)),
        reason: '',
      },
    ],
    ['failure-closed', { ...closure, signature }],
    [
      'failure-closed',
      { ...closure, closureId: ids(), signature: null, proofRunIds: [runId], cause: 'A leak at the tubing.' },
    ],
    [
      'action-taken',
      {
        actionId: ids(),
        analyzerId: run.analyzerId,
        failures: closure.failures,
        doneAt: content.madeAt,
        what: reason,
        technologistId: null,
        part: 'Tubing',
        eventId: null,
      },
    ],
    [
      'look-back-reviewed',
      {
        lookBackId: ids(),
        analyzerId: run.analyzerId,
        failures: closure.failures,
        from: content.madeAt,
        to: content.madeAt,
        reviewerId: by,
        outcome: 'none-affected',
        testedCount: 4,
        affectedCount: 0,
        note: '',
      },
    ],
    [
      'closing-rules-set',
      { closingRulesId: ids(), proofRuns: 2, needsAction: true, needsLookBack: false, reason },
    ],
    ['run-set-aside', { runId, isSetAside: true, reason }],
    ['run-set-aside', { runId, isSetAside: false, reason }],
    [
      'baseline-accepted',
      {
        acceptanceId: ids(),
        analyzerId: run.analyzerId,
        series: { method: run.method, route: run.route, quantity: 'va' },
        runIds: [runId, runId],
        mean: 3.01,
        sd: 0.03,
        reason,
      },
    ],
    [
      'period-signed',
      {
        signOffId: ids(),
        from: '2026-05-01',
        to: '2026-05-31',
        analyzers: [{ analyzerId: run.analyzerId, comment: '' }],
        heads: [{ workstation: ids(), seq: 3, hash: await hashEntry({ last: 3 }) }],
        comment: reason,
        signature: null,
      },
    ],
    ['failure-closed', { ...closure, closureId: ids(), signature: null }],
    ['baseline-started', { baselineId: ids(), analyzerId: run.analyzerId, from: content.madeAt, reason }],
    [
      'runs-imported',
      {
        batchId,
        fileName: 'earlier-runs.csv',
        fileHash: await hashEntry({ rows: 1 }),
        rowsRead: 2,
        accepted: 1,
        refused: 1,
      },
    ],
    ['run-recorded', { ...content, runId: ids(), origin: { kind: 'import', batchId, row: 2 }, judged: null }],
    ['import-voided', { batchId, reason }],
    ['analyzer-retired', { analyzerId: last('analyzer-added').analyzerId, reason }],
    ['syringe-retired', { syringeId: last('syringe-added').syringeId, reason }],
    ['technologist-retired', { technologistId, reason }],
    [
      'entries-lost',
      {
        lossId: ids(),
        initials: 'XY',
        found: 0,
        known: {
          count: 3,
          workstation: ids(),
          seq: 3,
          hash: await hashEntry({ last: 3 }),
          at: content.madeAt,
        },
      },
    ],
  ];

  const entries = [...begin];
  for (const [kind, body] of drafts) {
    const before = entries.at(-1);
    const at = new Date(Date.parse(before.at) + 60_000).toISOString();
    const place = {
      workstation: before.workstation,
      seq: before.seq + 1,
      prev: before.hash,
      at,
      zone: invented.zone,
    };
    entries.push(await sealEntry({ id: ids(), by, kind, body }, place));
  }
  const kinds = new Set(entries.map(({ kind }) => kind));
  const missing = entryKinds.filter((/** @type {string} */ kind) => !kinds.has(kind));
  if (missing.length > 0)
    throw new Error(`Put a sample of ${missing.join(', ')} among the drafts of this script.`);
  await mkdir(path.dirname(fixture), { recursive: true });
  await writeFile(fixture, `${entries.map((entry) => JSON.stringify(entry)).join('\n')}\n`);
  console.log(
    `${path.relative(process.cwd(), fixture)}: ${entries.length} entries, head ${entries.at(-1).hash}`,
  );
} finally {
  await server.close();
}
