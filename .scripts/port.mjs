import { createConnection, createServer } from 'node:net';

const host = '127.0.0.1';

/**
 * Whether a program listens at a port of this computer. Asked in both ways: one that listens on all addresses
 * leaves this one free to bind on some systems, and would still be the one that a browser might reach.
 *
 * @param {number} port
 * @returns {Promise<boolean>}
 */
export async function isPortTaken(port) {
  return (await answers(port)) || !(await canListen(port));
}

/**
 * @param {number} port
 * @returns {Promise<boolean>}
 */
function answers(port) {
  return new Promise((resolve) => {
    const probe = createConnection({ host, port, timeout: 2000 });
    const settle = (/** @type {boolean} */ taken) => {
      probe.destroy();
      resolve(taken);
    };
    probe.on('connect', () => settle(true));
    probe.on('timeout', () => settle(true));
    probe.on('error', () => settle(false));
  });
}

/**
 * @param {number} port
 * @returns {Promise<boolean>}
 */
function canListen(port) {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.on('error', () => resolve(false));
    probe.listen({ host, port, exclusive: true }, () => probe.close(() => resolve(true)));
  });
}

/**
 * Whether the page at a port is this logbook's, told by its title.
 *
 * @param {number} port
 * @param {number} [patienceMs] a program that takes connections and says nothing is not waited for
 */
export async function isOwnLogbook(port, patienceMs = 3000) {
  try {
    const page = await fetch(`http://${host}:${port}/`, { signal: AbortSignal.timeout(patienceMs) });
    return (await page.text()).includes('<title>Diffusion QC Logbook</title>');
  } catch {
    return false;
  }
}
