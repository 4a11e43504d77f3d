/** Which of their columns is which of ours, guessed by the heading, and where the headings stand. */
import type { TheirLine, TheirSheet } from '@stillstand/campaign/import';

/** Columns of ours a laboratory's table can fill, in the order they are asked for. */
export const FILLED = [
  'lab_code',
  'sample',
  'value',
  'error',
  'reported_as',
  'delta13c_permil',
  'fraction_dated',
  'method',
  'calibration_curve',
  'delta_r',
  'delta_r_error',
  'marine_fraction',
  'note',
] as const;
export type Filled = (typeof FILLED)[number];

/** Column of ours → place of theirs. */
export type Mapping = Partial<Record<Filled, number>>;

// Words laboratories head their columns with: common practice, no source. The first that fits takes the column.
const HEADINGS: readonly (readonly [Filled, RegExp])[] = [
  ['delta13c_permil', /(?:d|δ|delta)\s*-?\s*(?:13\s*c|c\s*-?\s*13)|13c/],
  ['delta_r_error', /(?:(?:delta|δ|d)\s*-?r|reservoir).*(?:±|sd|sigma|error|uncert)/],
  ['delta_r', /^(?:delta|δ|d)\s*-?r\b|reservoir/],
  ['error', /^±|\+\s*\/?\s*-|±$|error|uncert|sigma|1\s*σ|\b1?\s*s\.?d\.?\b|std/],
  [
    'lab_code',
    /lab(?:oratory)?\b.*\b(?:code|no|nr|num|number|id|ref)|^lab\b|^code$|analysis (?:id|no|number)|labcode/,
  ],
  ['sample', /sample|client|submitter|field (?:id|no|code)|your (?:ref|id|code)|specimen/],
  [
    'value',
    /(?:conventional|radiocarbon|14\s*c|c\s*-?14|uncal\w*).*(?:age|bp)|\bage\b|^bp$|\byr?s? bp\b|^value$/,
  ],
  ['fraction_dated', /fraction|pre-?treat|treatment|dated (?:part|material)|what was dated/],
  ['method', /method|technique/],
  ['calibration_curve', /curve/],
  ['marine_fraction', /marine (?:share|fraction|carbon|%)/],
  ['note', /comment|remark|note/],
];
/** Never one of ours, whatever else stands in the heading. */
const NOT_OURS =
  /calibrat(?:ed|ion) (?:age|date|range)|cal\.? ?(?:bp|bc|ad|ce)|f\s*14\s*c|pmc|percent modern|d14c|δ14c|date (?:received|reported|sampled)|invoice|mass|weight/;

const tidy = (heading: string): string =>
  heading
    .toLowerCase()
    .replaceAll('_', ' ')
    .replace(/[\s\u00a0]+/g, ' ')
    .trim();

/** Ours for one of their headings; null where none fits. */
export function oursFor(heading: string): Filled | null {
  const words = tidy(heading);
  if (words === '') return null;
  const own = FILLED.find((column) => column.replaceAll('_', ' ') === words);
  if (own !== undefined) return own;
  if (NOT_OURS.test(words)) return null;
  return HEADINGS.find(([, pattern]) => pattern.test(words))?.[0] ?? null;
}

/** Each of theirs is used once; of two that fit, the first. */
export function guessMapping(headings: readonly string[]): Mapping {
  const mapping: Mapping = {};
  headings.forEach((heading, i) => {
    const ours = oursFor(heading);
    if (ours !== null && mapping[ours] === undefined) mapping[ours] = i;
  });
  return mapping;
}

/** The line that reads most like headings: laboratories put letters above their tables. Position in `lines`. */
export function headingLine(lines: readonly TheirLine[]): number {
  let best = 0;
  let most = -1;
  for (const [i, { cells }] of lines.slice(0, 30).entries()) {
    const known = Object.keys(guessMapping(cells)).length;
    if (known > most) {
      most = known;
      best = i;
    }
  }
  return best;
}

/** The sheet with the best headings. */
export function bestSheet(sheets: readonly TheirSheet[]): number {
  const score = (sheet: TheirSheet): number =>
    Object.keys(guessMapping(sheet.lines[headingLine(sheet.lines)]?.cells ?? [])).length;
  let best = 0;
  for (const [i, sheet] of sheets.entries()) if (score(sheet) > score(sheets[best]!)) best = i;
  return best;
}
