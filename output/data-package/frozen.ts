/** Results that were frozen: those of a data package, or of a folder that `compute` wrote, with what shows a change. */
import { changedSince, PACKAGE_PATH, PACKED_CAMPAIGN, PACKED_CHECKSUMS } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { type Results, readResults } from '@stillstand/campaign/results';

const JSON_FILE = 'results.json';
const ARRAYS_FILE = 'results.npz';
const PACKED_RESULTS = 'results/';

export interface Frozen {
  /** Null where they cannot be used; the problems say why. */
  results: Results | null;
  /** Files of the campaign they came with, from its folder; null without one. */
  campaign: Map<string, Uint8Array> | null;
  /** Version of the program as the package states it. */
  program: string | null;
  problems: Problem[];
}

/** Whether there are results among these files: at the top, or where a data package has them. */
export const holdsFrozen = (paths: Iterable<string>): boolean =>
  [...paths].some((path) => path === JSON_FILE || path === PACKED_RESULTS + JSON_FILE);

/** Campaign files in a data package or next to results; null where there are none. */
export function packedCampaign(files: ReadonlyMap<string, Uint8Array>): Map<string, Uint8Array> | null {
  const inside = [...files].flatMap(([path, bytes]) =>
    path.startsWith(PACKED_CAMPAIGN) ? [[path.slice(PACKED_CAMPAIGN.length), bytes] as const] : [],
  );
  return inside.some(([path]) => path === PACKAGE_PATH) ? new Map(inside) : null;
}

/**
 * Reads them, their digests first: results that were changed after they were computed are not used; any other file that
 * was changed is named. Never throws.
 */
export function readFrozen(files: ReadonlyMap<string, Uint8Array>): Frozen {
  const folder = files.has(PACKED_RESULTS + JSON_FILE) ? PACKED_RESULTS : '';
  const text = (path: string): string => new TextDecoder().decode(files.get(path));
  const changed = files.has(PACKED_CHECKSUMS) ? changedSince(text(PACKED_CHECKSUMS), files) : [];
  const isResults = ({ path }: { path: string }): boolean =>
    path === folder + JSON_FILE || path === folder + ARRAYS_FILE;
  const problems = [
    ...(files.has(PACKED_CHECKSUMS) ? [] : [noChecksums()]),
    // Who keeps results alone may leave figures and tables behind.
    ...changed
      .filter((each) => each.now === 'changed' || isResults(each) || each.path.startsWith(PACKED_CAMPAIGN))
      .map((each) => notAsComputed(each, isResults(each))),
  ];
  const campaign = packedCampaign(files);
  const program = /^version: (.+)$/m.exec(text('CITATION.cff'))?.[1] ?? null;
  if (changed.some(isResults)) return { results: null, campaign, program, problems };
  const arrays = files.get(folder + ARRAYS_FILE) ?? new Uint8Array();
  const read = readResults(text(folder + JSON_FILE), arrays);
  if (read.ok) return { results: read.results, campaign, program, problems };
  const isOlder = read.problem.code === 'results-version';
  const fix = 'Compare with --recompute: both campaigns are then computed by this version of Stillstand.';
  const found = isOlder && campaign !== null ? { ...read.problem, fix } : read.problem;
  return { results: null, campaign, program, problems: [...problems, found] };
}

const notAsComputed = ({ path, now }: { path: string; now: string }, isResults: boolean): Problem =>
  problem({
    severity: isResults ? 'error' : 'warning',
    code: 'changed-file',
    table: path,
    found: now === 'missing' ? 'the file is missing' : 'another content than its checksum states',
    expected: 'the file as it was computed (checksums.txt)',
    fix: isResults
      ? 'Use the package as it was frozen, or compute the campaign again (--recompute). Nothing is compared.'
      : 'Use the package as it was frozen. The comparison uses the file as it is now.',
  });

const noChecksums = (): Problem =>
  problem({
    severity: 'warning',
    code: 'no-checksums',
    table: PACKED_CHECKSUMS,
    found: 'results without checksums',
    expected: 'checksums of every file, as compute writes them',
    fix: 'Compute them again to be sure. It is not known whether they were changed.',
  });
