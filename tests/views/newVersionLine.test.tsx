import { render, screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type NewVersion, watchForNewVersion } from '../../src/views/newVersion.ts';
import { NewVersionLine } from '../../src/views/newVersionLine.tsx';
import { watchTyping } from '../../src/views/typedText.ts';

describe('the line about a new version', () => {
  const show = (wouldBeLost: boolean) => {
    const version = { takeUp: vi.fn((reload: () => void) => reload()) };
    const reload = vi.fn();
    render(<NewVersionLine reload={reload} typed={{ wouldBeLost: () => wouldBeLost }} version={version} />);
    return { user: userEvent.setup(), version, reload };
  };

  it('does nothing until its button is pressed, and reloads then', async () => {
    const { user, version, reload } = show(false);
    expect(screen.getByText('A new version is ready. Reload when you have finished.')).toBeVisible();
    expect(version.takeUp).not.toHaveBeenCalled();
    await user.click(screen.getByRole('button', { name: 'Reload' }));
    expect(reload).toHaveBeenCalledTimes(1);
    expect(screen.queryByRole('button')).toBeNull();
  });

  it('asks before something typed is lost, and takes no for an answer', async () => {
    const { user, version } = show(true);
    await user.click(screen.getByRole('button', { name: 'Reload' }));
    await user.click(screen.getByRole('button', { name: 'Not now' }));
    expect(version.takeUp).not.toHaveBeenCalled();
    await user.click(screen.getByRole('button', { name: 'Reload' }));
    await user.click(screen.getByRole('button', { name: 'Reload all the same' }));
    expect(version.takeUp).toHaveBeenCalledTimes(1);
  });
});

describe('what a reload would lose', () => {
  afterEach(() => {
    window.location.hash = '';
  });

  it('is what stands in a field that was typed into, as long as the field is there', async () => {
    window.location.hash = '#/equipment/new/person';
    const typed = watchTyping(document);
    const { unmount } = render(<input aria-label="Name" defaultValue="Ada" />);
    expect(typed.wouldBeLost()).toBe(false);
    const user = userEvent.setup();
    const field = screen.getByRole('textbox', { name: 'Name' });
    await user.type(field, ' L');
    expect(typed.wouldBeLost()).toBe(true);
    await user.clear(field);
    expect(typed.wouldBeLost()).toBe(false);
    await user.type(field, 'Ada');
    window.location.hash = '#/bench';
    expect(typed.wouldBeLost()).toBe(false);
    window.location.hash = '#/equipment';
    expect(typed.wouldBeLost()).toBe(true);
    unmount();
    expect(typed.wouldBeLost()).toBe(false);
  });
});

describe('the watch for a new version', () => {
  const told: NewVersion[] = [];
  const tell = (version: NewVersion) => told.push(version);
  beforeEach(() => {
    told.length = 0;
    vi.useFakeTimers();
  });
  afterEach(() => vi.useRealTimers());

  /** A browser's workers, as far as the watch looks at them. */
  function workers(state: {
    controller: object | null;
    waiting: { postMessage(data: string): void } | null;
  }) {
    const registration = Object.assign(new EventTarget(), {
      active: {},
      installing: null as EventTarget | null,
      waiting: state.waiting,
      update: vi.fn(async () => undefined),
    });
    const container = Object.assign(new EventTarget(), {
      controller: state.controller,
      register: async () => registration,
    });
    return { registration, container, asWorkers: container as unknown as ServiceWorkerContainer };
  }

  it('says nothing of the first version, which takes over the page it came with', async () => {
    const { container, asWorkers } = workers({ controller: null, waiting: null });
    await watchForNewVersion(asWorkers, tell);
    container.dispatchEvent(new Event('controllerchange'));
    expect(told).toEqual([]);
    container.dispatchEvent(new Event('controllerchange'));
    expect(told).toHaveLength(1);
  });

  it('tells of one that waits, hands over at a word, and reloads once it has taken over and the draft is kept', async () => {
    const waiting = { postMessage: vi.fn() };
    const { container, asWorkers } = workers({ controller: {}, waiting });
    await watchForNewVersion(asWorkers, tell);
    expect(told).toHaveLength(1);
    expect(waiting.postMessage).not.toHaveBeenCalled();
    const reload = vi.fn();
    told[0]?.takeUp(reload);
    expect(waiting.postMessage).toHaveBeenCalledWith('take over');
    vi.advanceTimersByTime(10_000);
    expect(reload).not.toHaveBeenCalled();
    container.dispatchEvent(new Event('controllerchange'));
    vi.advanceTimersByTime(300);
    expect(reload).not.toHaveBeenCalled();
    vi.advanceTimersByTime(300);
    expect(reload).toHaveBeenCalledTimes(1);
  });

  it('tells of one that comes in while the page is open, once it is whole', async () => {
    const { registration, asWorkers } = workers({ controller: {}, waiting: null });
    await watchForNewVersion(asWorkers, tell);
    const coming = new EventTarget();
    registration.installing = coming;
    registration.dispatchEvent(new Event('updatefound'));
    coming.dispatchEvent(new Event('statechange'));
    expect(told).toEqual([]);
    registration.waiting = { postMessage: vi.fn() };
    coming.dispatchEvent(new Event('statechange'));
    expect(told).toHaveLength(1);
  });

  it('asks for news every hour, and bears it when the server is gone', async () => {
    const { registration, asWorkers } = workers({ controller: {}, waiting: null });
    registration.update.mockRejectedValue(new TypeError('no server'));
    await watchForNewVersion(asWorkers, tell);
    await vi.advanceTimersByTimeAsync(3 * 3_600_000);
    expect(registration.update).toHaveBeenCalledTimes(3);
  });
});
