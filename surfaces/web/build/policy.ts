/**
 * What the app may load and run: its own files and nothing else. Text a campaign brings along can never become a
 * script, because no inline script runs; workers are files of ours; pictures may come from the campaign (blob:).
 */
const RULES = {
  'default-src': "'none'",
  'script-src': "'self'",
  'worker-src': "'self'",
  'style-src': "'self'",
  'font-src': "'self'",
  'img-src': "'self' blob: data:",
  'media-src': "'self' blob:",
  'connect-src': "'self'",
  'manifest-src': "'self'",
  'base-uri': "'none'",
  'form-action': "'none'",
  'object-src': "'none'",
} as const;

const written = (rules: Readonly<Record<string, string>>): string =>
  Object.entries(rules)
    .map(([directive, sources]) => `${directive} ${sources}`)
    .join('; ');

/** For the `<meta>` in the page, so that the app is guarded wherever its files are put. */
export const POLICY_IN_PAGE = written(RULES);

/** Response headers of our own server. Isolation lets a stale computation be stopped through shared memory. */
export const HEADERS: Readonly<Record<string, string>> = {
  // A page cannot forbid in its own text to be framed: only the header can.
  'Content-Security-Policy': `${POLICY_IN_PAGE}; frame-ancestors 'none'`,
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(self), geolocation=(self), microphone=()',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
};
