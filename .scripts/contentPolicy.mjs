/**
 * What the page may load and do, by Content-Security-Policy: its own files, and nothing else. Nothing is fetched, no
 * script or style stands in the page's text, no text becomes code. The build writes it into the page, so that it holds
 * on any static server; the server of the build sends it as a header too.
 */
const directives = {
  'default-src': "'none'",
  'script-src': "'self'",
  'style-src': "'self'",
  'img-src': "'self'",
  'manifest-src': "'self'",
  'worker-src': "'self'",
  'base-uri': "'none'",
  'form-action': "'none'",
};

/** @param {Record<string, string>} policy */
const written = (policy) =>
  Object.entries(policy)
    .map(([directive, allowed]) => `${directive} ${allowed}`)
    .join('; ');

export const policyInPage = written(directives);

/** Who may frame the page is ignored in the page itself: a page could be framed before it has said so. */
export const policyInHeader = written({ ...directives, 'frame-ancestors': "'none'" });

/** The worker that keeps the program on the computer is held to the header it comes with, and it alone has to fetch. */
export const policyOfWorker = written({ 'default-src': "'none'", 'connect-src': "'self'" });

export const securityHeaders = {
  'Content-Security-Policy': policyInHeader,
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

/**
 * Writes the policy at the head of the built page: what stands before it in the page is not held to it. The page of
 * the development server goes without, since live reload needs a script in its text and a connection.
 *
 * @returns {import('vite').Plugin}
 */
export function contentPolicyInPage() {
  return {
    name: 'content-policy-in-page',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: { 'http-equiv': 'Content-Security-Policy', content: policyInPage },
        injectTo: 'head-prepend',
      },
    ],
  };
}
