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

/**
 * The one script that compiles WebAssembly (SQLite, for a GeoPackage) is a worker that meets no markup. It needs this
 * word; the page, and whatever else runs, goes without.
 */
const COMPILES = /[\\/]geopackage\.worker-[\w-]{8}\.js$/;
const COMPILING = { ...RULES, 'script-src': "'self' 'wasm-unsafe-eval'" };

/** For the `<meta>` in the page, so that the app is guarded wherever its files are put. */
export const POLICY_IN_PAGE = written(RULES);

// A page cannot forbid in its own text to be framed: only the header can.
const policyHeader = (policy: string): string => `${policy}; frame-ancestors 'none'`;

/** Response headers of our own server. Isolation lets a stale computation be stopped through shared memory. */
export const HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': policyHeader(POLICY_IN_PAGE),
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(self), geolocation=(self), microphone=()',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
};

/** The same of one file. */
export const headersOf = (file: string): Readonly<Record<string, string>> =>
  COMPILES.test(file) ? { ...HEADERS, 'Content-Security-Policy': policyHeader(written(COMPILING)) } : HEADERS;
