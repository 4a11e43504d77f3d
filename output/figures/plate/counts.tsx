/** The campaign in numbers: what was drilled, recovered, dated and used. */
import {
  curveOf,
  type HoleResult,
  type Results,
  sitesNamed,
  sitesOfCurve,
} from '@stillstand/campaign/results';
import {
  firstLines,
  horizontal,
  LINE,
  shortened,
  Text,
  textWidth,
  useInk,
  wrapped,
} from '@stillstand/output/drawing';
import { counted, printed } from '@stillstand/output/words';
import { epochInWords } from '../chronology.ts';
import { diagnosticsInWords } from '../diagnostics.ts';

interface Row {
  name: string;
  words: string;
}

/** A share, "85 %"; of nothing, nothing. */
const share = (part: number, whole: number): string =>
  whole > 0 ? `${printed((100 * part) / whole)} %` : '';

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);

function countsOf(results: Results): Row[] {
  const { holes, points, datum, curves } = results;
  const drilled = holes.filter(({ state }) => state !== 'planned');
  const epoch = epochInWords(datum);
  const accepted = points.filter(({ status }) => status === 'accepted');
  const of = (kind: string): number => accepted.filter((point) => point.kind === kind).length;
  const rejected = points.length - accepted.length;
  return [
    { name: 'holes', words: holesInWords(holes, drilled) },
    {
      name: 'drilled',
      words: `${printed(sum(drilled.map(({ penetration_m }) => penetration_m ?? 0)), 1)} m`,
    },
    { name: 'recovered', words: recoveredInWords(drilled) },
    { name: 'dated samples', words: datedInWords(results) },
    { name: 'index points', words: `${printed(of('index'))} used` },
    {
      name: 'limiting points',
      words: `${printed(of('terrestrial'))} terrestrial, ${printed(of('marine'))} marine used`,
    },
    ...(rejected === 0 ? [] : [{ name: 'points rejected', words: printed(rejected) }]),
    { name: 'datum', words: epoch === null ? datum.label : `${datum.label}, ${epoch}` },
    ...(curves.length < 2 ? [] : [{ name: 'curve of', words: sitesNamed(sitesOfCurve(results)) }]),
    { name: 'curve', words: curveInWords(results) },
    ...(curves.length < 2
      ? []
      : [{ name: 'other curves', words: `${printed(curves.length - 1)}, not in this plate` }]),
  ];
}

function holesInWords(holes: readonly HoleResult[], drilled: readonly HoleResult[]): string {
  const lost = drilled.filter(({ state }) => state === 'lost').length;
  const planned = holes.length - drilled.length;
  return [
    `${printed(drilled.length)} drilled`,
    lost === 0 ? '' : `${printed(lost)} of them lost`,
    planned === 0 ? '' : `${printed(planned)} planned`,
  ]
    .filter((part) => part !== '')
    .join(', ');
}

/** Of the holes whose runs or pushes are recorded; the share is of what was drilled there. */
function recoveredInWords(drilled: readonly HoleResult[]): string {
  const sampled = drilled.filter(({ runs }) => runs.length > 0);
  if (sampled.length === 0) return 'not recorded';
  const recovered = sum(sampled.flatMap(({ runs }) => runs.map(({ recovered_m }) => recovered_m)));
  const part = share(recovered, sum(sampled.map(({ penetration_m }) => penetration_m ?? 0)));
  const where = sampled.length === drilled.length ? part : `${part} in ${counted(sampled.length, 'hole')}`;
  return `${printed(recovered, 1)} m${where.trim() === '' ? '' : ` (${where.trim()})`}`;
}

/** A sample is used where any of its dates is. */
function datedInWords({ dates }: Results): string {
  const used = new Set(dates.filter(({ status }) => status === 'accepted').map(({ sample }) => sample));
  const all = new Set(dates.map(({ sample }) => sample));
  const unused = all.size - used.size;
  return `${printed(used.size)} used${unused === 0 ? '' : `, ${printed(unused)} not used`}`;
}

function curveInWords(results: Results): string {
  const curve = curveOf(results);
  if (curve === null) return 'none could be computed';
  const { diagnostics } = curve;
  return `${diagnostics.converged ? 'converged' : 'not converged: do not use'}, ${diagnosticsInWords(diagnostics)}`;
}

/** Of a line, and between columns, points. */
const LEADING = 9.4;
const BETWEEN = 18;
/** A column of names and words is at least so wide. */
const LEAST_COLUMN = 160;
/** From the rule to the first line, and from the last to the rule. */
const [OVER, AFTER] = [9.2, 4];

export interface CountsLayout {
  columns: { x: number; rows: { name: string; lines: string[]; y: number }[] }[];
  /** From a name to its words, points. */
  indent: number;
  width: number;
  height: number;
}

/** As a datum or the names of sites may be long. */
const MOST_LINES = 3;

const linesOf = (words: string, width: number): string[] =>
  firstLines(wrapped(words, width), MOST_LINES, width).map((line) => shortened(line, width));

/** In as many columns as the width holds, read downwards. */
export function countsLayout(results: Results, width: number): CountsLayout {
  const rows = countsOf(results);
  const indent = Math.max(...rows.map(({ name }) => textWidth(name))) + 8;
  const count = Math.max(1, Math.floor((width + BETWEEN) / (LEAST_COLUMN + BETWEEN)));
  const column = (width - (count - 1) * BETWEEN) / count;
  const set = rows.map(({ name, words }) => ({ name, lines: linesOf(words, column - indent) }));
  const lines = sum(set.map((row) => row.lines.length));
  // A column takes rows until it has its share of the lines.
  const columns: CountsLayout['columns'] = [];
  let before = 0;
  for (const row of set) {
    const i = Math.min(count - 1, Math.floor((before * count) / lines));
    columns[i] ??= { x: i * (column + BETWEEN), rows: [] };
    const above = sum(columns[i].rows.map((each) => each.lines.length));
    columns[i].rows.push({ ...row, y: OVER + above * LEADING });
    before += row.lines.length;
  }
  const kept = columns.filter((each) => each !== undefined);
  const most = Math.max(...kept.map((each) => sum(each.rows.map((row) => row.lines.length))));
  return { columns: kept, indent, width, height: OVER + (most - 1) * LEADING + AFTER };
}

export function Counts({ layout: { columns, indent, width, height } }: { layout: CountsLayout }) {
  const ink = useInk();
  return (
    <g id="plate-counts">
      <path
        d={horizontal(0, width, 0) + horizontal(0, width, height)}
        stroke={ink.ink}
        strokeWidth={LINE.edge}
        fill="none"
      />
      {columns.flatMap(({ x, rows }) =>
        rows.map(({ name, lines, y }) => (
          <g key={name}>
            <Text x={x} y={y} voice="ink2">
              {name}
            </Text>
            {lines.map((words, i) => (
              <Text key={words} x={x + indent} y={y + i * LEADING}>
                {words}
              </Text>
            ))}
          </g>
        )),
      )}
    </g>
  );
}
