import { preview } from 'vite';
import { distDir } from './build.mjs';
import { projectRoot } from './command.mjs';
import { policyOfWorker, securityHeaders } from './contentPolicy.mjs';
import { workerFile } from './offline.mjs';

const host = '127.0.0.1';

/**
 * Serves a finished build on this computer only.
 *
 * @param {number} port 0 takes any free one
 * @param {string} [dir] the build's folder
 * @returns {Promise<{ url: string, close: () => Promise<void> }>} `url` without a closing slash
 * @throws {Error} when the port is taken
 */
export async function serveBuild(port, dir = distDir) {
  const server = await preview({
    root: projectRoot,
    build: { outDir: dir },
    logLevel: 'silent',
    plugins: [oneAddress(), strictHeaders()],
    preview: { host, port, strictPort: true, open: false },
  });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('The server has no port.');
  return { url: `http://${host}:${address.port}`, close: () => server.close() };
}

/**
 * The browser keeps one database for each spelling of an address: a logbook opened under "localhost" would be
 * another, empty one. So every other name for this server leads to the one address.
 * Not a permanent redirect: the browser would keep it for whatever is served under that name later.
 *
 * @returns {import('vite').Plugin}
 */
function oneAddress() {
  return {
    name: 'one-address',
    configurePreviewServer(server) {
      server.middlewares.use((request, response, next) => {
        const asked = request.headers.host ?? '';
        if (!/^(localhost|\[::1\])(:|$)/i.test(asked)) {
          next();
          return;
        }
        const address = `${host}:${request.socket.localPort}`;
        response.writeHead(307, { Location: `http://${address}${request.url ?? '/'}` });
        response.end();
      });
    },
  };
}

/** @returns {import('vite').Plugin} */
function strictHeaders() {
  return {
    name: 'strict-headers',
    configurePreviewServer(server) {
      server.middlewares.use((request, response, next) => {
        for (const [header, value] of Object.entries(securityHeaders)) response.setHeader(header, value);
        if (request.url === `/${workerFile}`) response.setHeader('Content-Security-Policy', policyOfWorker);
        next();
      });
    },
  };
}
