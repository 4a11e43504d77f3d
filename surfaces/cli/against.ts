/** Another curve that a curve is compared with: results of a campaign, or a published curve in a table. */
import { dirname, join } from 'node:path';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { curveOf, type Results, readResults } from '@stillstand/campaign/results';
import { differenceCells, range, shareOfPairs, signed, years } from '@stillstand/output/words';
import {
  type CurveResult,
  type Difference,
  type DifferenceFrom,
  differenceFrom,
  isAnswer,
  type PublishedCurve,
} from '@stillstand/science/curve';
import type { Command, Words } from './command.ts';
import { readBytes } from './disk/read.ts';
import { readLevels } from './levels-table.ts';
import { print, sayTable } from './say.ts';

export const AGAINST_OPTIONS: Command['options'] = {
  against: {
    type: 'string',
    value: 'FILE',
    about: 'difference from another curve: a results.json, or a table age_cal_bp, level_m, sd_m, datum',
  },
  datum: {
    type: 'string',
    value: 'NAME',
    about: 'datum of the heights in POINTS.csv, as FILE names its own',
  },
};

interface Other {
  name: string;
  curve: CurveResult | PublishedCurve;
  /** Null where it states none. */
  datum: string | null;
  /** With its tidal epoch, "MSL (1993–2011)": the same again where it has none. */
  datumInFull: string | null;
  /** Its datum is of one campaign alone: a name says nothing elsewhere. */
  isLocal: boolean;
}

interface Read {
  other: Other | null;
  problems: readonly Problem[];
}

/** Before anything is computed: a file that the disk refuses ends the command at once. */
export async function readAgainst(words: Words): Promise<Read> {
  const path = words.text('against');
  return path === undefined ? { other: null, problems: [] } : await readOther(path);
}

/** The difference, and what is wrong; null where there is none to say. */
export function against(
  words: Words,
  curve: CurveResult,
  { other, problems: found }: Read,
): { difference: DifferenceFrom | null; problems: Problem[] } {
  const problems = [...found];
  if (other === null) return { difference: null, problems };
  const own = words.text('datum')?.trim() || null;
  const isOther = own !== null && other.datum !== null && !isNamed(own, other);
  const about = { table: other.name, column: 'datum' };
  if (isOther)
    problems.push(
      problem({
        ...about,
        severity: 'error',
        code: 'other-datum',
        found: other.datumInFull!,
        expected: own,
        fix: 'Convert one of the two to the datum of the other. The levels are not compared; the rates are, since a constant shift does not change them.',
      }),
    );
  else if (own === null || other.datum === null || other.isLocal)
    problems.push(
      problem({
        ...about,
        severity: 'warning',
        code: 'datum-not-known',
        found:
          other.datum === null
            ? ''
            : other.isLocal
              ? `${other.datumInFull}, a local datum`
              : other.datumInFull!,
        expected: own === null ? 'the datum of POINTS.csv in --datum' : `that it is ${own}`,
        fix: 'The two are taken to be on one datum. If they are not, the differences of level mean nothing; those of the rates hold.',
      }),
    );
  const difference = differenceFrom(curve, other.curve, !isOther);
  if (isAnswer(difference)) return { difference, problems };
  problems.push(
    problem({
      table: other.name,
      column: 'age_cal_bp',
      severity: 'error',
      code: 'no-shared-age',
      ...difference,
      fix: 'Compare curves of the same time. Nothing is compared.',
    }),
  );
  return { difference: null, problems };
}

/** A person types a hyphen for the dash of an epoch. */
const isNamed = (own: string, { datum, datumInFull }: Other): boolean =>
  own === datum || own.replaceAll('–', '-') === datumInFull?.replaceAll('–', '-');

const readOther = (path: string): Promise<Read> =>
  /\.json$/i.test(path) ? otherOfResults(path) : otherOfTable(path);

async function otherOfResults(path: string): Promise<Read> {
  const json = new TextDecoder().decode(await readBytes(path));
  const read = readResults(json, await readBytes(join(dirname(path), 'results.npz')));
  if (!read.ok) return { other: null, problems: [read.problem] };
  const curve = curveOf(read.results);
  if (curve !== null)
    return { other: otherOf(read.results, curve), problems: notConverged(read.results, curve) };
  const none = problem({
    severity: 'error',
    code: 'no-curve',
    table: read.results.name,
    found: 'results without a curve',
    expected: 'results of a campaign that has one',
    fix: 'Compute that campaign with points that can be used. Nothing is compared.',
  });
  return { other: null, problems: [none] };
}

const otherOf = ({ name, datum }: Results, curve: CurveResult): Other => ({
  name,
  curve,
  datum: datum.label,
  datumInFull: datum.epoch === null ? datum.label : `${datum.label} (${datum.epoch})`,
  isLocal: datum.kind === 'local',
});

const notConverged = ({ name }: Results, { diagnostics }: CurveResult): Problem[] =>
  diagnostics.converged
    ? []
    : [
        problem({
          severity: 'warning',
          code: 'not-converged',
          table: name,
          found: 'a curve that has not converged',
          expected: 'one that has',
          fix: 'Compute that campaign with more draws: the difference is not to be used until then.',
        }),
      ];

async function otherOfTable(path: string): Promise<Read> {
  const { name, curve, datum, problems } = await readLevels(path);
  return {
    other: curve === null ? null : { name, curve, datum, datumInFull: datum, isLocal: false },
    problems,
  };
}

/** This curve less the other, at each age that both know. */
export function sayDifference({ at, mean_rate_mm_yr }: DifferenceFrom, converged: boolean): void {
  const unsettled = converged ? [] : ['NOT CONVERGED'];
  const cells = (difference: Difference | null): string[] => Object.values(differenceCells(difference));
  print('Difference: this curve less the other. The draws of the two are independent.');
  sayTable([
    [
      'cal BP',
      'RSL, m',
      '95 %',
      'p higher',
      'rate to the next age, mm/yr',
      '95 %',
      'p faster',
      ...unsettled.map(() => ''),
    ],
    ...at.map(({ age_cal_bp, level_m, rate_mm_yr }) => [
      years(age_cal_bp),
      ...cells(level_m),
      ...cells(rate_mm_yr),
      ...unsettled,
    ]),
  ]);
  if (mean_rate_mm_yr === null) return;
  const { median, lower95, upper95, p_larger } = mean_rate_mm_yr;
  print(
    `Mean rate from ${years(at[0]!.age_cal_bp)} to ${years(at.at(-1)!.age_cal_bp)} cal BP: ${signed(median, 2)} mm/yr ` +
      `(95 % ${range(lower95, upper95, 2)}) against the other; probability that this one is faster: ${shareOfPairs(p_larger)}` +
      `${unsettled.map((word) => ` (${word})`).join('')}.`,
  );
}
