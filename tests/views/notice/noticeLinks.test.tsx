import 'fake-indexeddb/auto';
import { screen } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { Route } from 'wouter';
import ChartsScreen from '../../../src/views/charts/chartsScreen.tsx';
import { noticeHref } from '../../../src/views/deskRoutes.ts';
import LaboratoryScreen from '../../../src/views/laboratory/laboratoryScreen.tsx';
import { policyPath } from '../../../src/views/routes.ts';
import { ids, tenGoodRuns } from '../laboratory.ts';
import { openStore, show, staffed } from '../onLogbook.tsx';

describe('the way to what would be noticed', () => {
  it('begins at a series', async () => {
    const handle = await openStore([...staffed(), ...tenGoodRuns()]);
    await show(handle, <Route component={ChartsScreen} path="/charts/*?" />, '/charts');
    expect(screen.getByRole('link', { name: 'What would we notice?' })).toHaveAttribute(
      'href',
      noticeHref(ids.analyzer),
    );
  });

  it('begins at a policy', async () => {
    const handle = await openStore(staffed());
    await show(
      handle,
      <Route component={LaboratoryScreen} path="/laboratory/*?" />,
      policyPath(ids.analyzer),
    );
    expect(screen.getByRole('link', { name: 'What would these rules notice?' })).toHaveAttribute(
      'href',
      noticeHref(ids.analyzer),
    );
  });
});
