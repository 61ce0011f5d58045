/** @typedef {{ passed: number, failed: number }} Count */

/**
 * What is used of the JSON that the test runner writes.
 *
 * @typedef {{
 *   success: boolean,
 *   testResults: { name: string, status: string, assertionResults: { status: string }[] }[],
 * }} TestReport
 */

/**
 * Counts a run so that nothing counts as good by its absence. A test that was skipped or left to do has failed;
 * so has a file without a single test, and a run that gave no report, no test, or a bad exit code for a reason
 * that no test shows (an error outside every test).
 *
 * @param {TestReport | null} report
 * @param {number} exitCode
 * @returns {Count}
 */
export function countTests(report, exitCode) {
  if (report === null) return { passed: 0, failed: 1 };
  let passed = 0;
  let failed = 0;
  for (const file of report.testResults) {
    const good = file.assertionResults.filter(({ status }) => status === 'passed').length;
    const bad = file.assertionResults.length - good;
    passed += good;
    failed += bad;
    // The file itself failed (it cannot be loaded, a hook threw), or it holds no test.
    if (bad === 0 && (file.status !== 'passed' || good === 0)) failed += 1;
  }
  const hiddenTrouble = exitCode !== 0 || !report.success || passed === 0;
  return { passed, failed: failed === 0 && hiddenTrouble ? 1 : failed };
}

/**
 * @param {Count} count
 * @param {boolean} browserTestsSkipped
 */
export function lastLine({ passed, failed }, browserTestsSkipped) {
  const note = browserTestsSkipped ? ' (browser tests skipped: BROWSER_TESTS=skip)' : '';
  return `${passed} passed, ${failed} failed${note}`;
}
