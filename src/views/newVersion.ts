/** The worker that keeps the program on this computer, and a newer version that waits in it. */

const hourMs = 3_600_000;
/** The half-typed run is kept a moment after its last key. */
const untilKeptMs = 500;

export interface NewVersion {
  /** Hands over to it, and then runs `reload`. */
  takeUp(reload: () => void): void;
}

/**
 * Registers the worker, and tells of a newer version once it is here whole; it takes over when it is told to, or when the
 * last window is closed. Told a second time where another window has taken it up: this one runs the former one then.
 */
export async function watchForNewVersion(
  workers: ServiceWorkerContainer,
  tell: (version: NewVersion) => void,
): Promise<void> {
  // The first worker takes over a page that came from the server: the same version.
  let isFirst = workers.controller === null;
  workers.addEventListener('controllerchange', () => {
    if (!isFirst) tell(newVersion);
    isFirst = false;
  });
  const registration = await workers.register('offline.js');
  const newVersion: NewVersion = {
    takeUp(reload) {
      const { waiting } = registration;
      const soon = () => setTimeout(reload, untilKeptMs);
      if (waiting === null) {
        soon();
        return;
      }
      workers.addEventListener('controllerchange', soon, { once: true });
      waiting.postMessage('take over');
    },
  };
  const look = () => {
    if (registration.waiting !== null && registration.active !== null) tell(newVersion);
  };
  const follow = () => registration.installing?.addEventListener('statechange', look);
  registration.addEventListener('updatefound', follow);
  follow();
  look();
  // A window on a ward stays open for weeks. Without the server there is no news, and that is none of the reader's business.
  const ask = () => void registration.update().catch(() => undefined);
  setInterval(ask, hourMs);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') ask();
  });
}
