/** Annual means of a tide gauge that join a curve of a plain table. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { type GaugeMeans, gaugeInWords } from '@stillstand/output/words';
import { type CurvePoint, gaugePoints } from '@stillstand/science/curve';
import { type AnnualRow, BLOCK_YR, readAnnualMeans } from '@stillstand/science/tide';
import { type Command, type Words, WrongUse } from './command.ts';
import { readPlainTable } from './plain-table.ts';
import { print } from './say.ts';

export const GAUGE_OPTIONS: Command['options'] = {
  gauge: {
    type: 'string',
    value: 'FILE',
    about: `annual means of a tide gauge: year, level_m and, if wanted, sigma_m, months, flag; used in blocks of about ${BLOCK_YR} yr`,
  },
  'gauge-zero': {
    type: 'string',
    value: 'M',
    about:
      'elevation of the zero of its levels on the datum of rsl_m; not known, and only rates informed, if not given',
  },
  'gauge-zero-sd': { type: 'string', value: 'M', about: '1 sigma of that; needed with --gauge-zero' },
};

export interface GaugeOfCurve {
  means: GaugeMeans;
  points: CurvePoint[];
}

/** Before anything is computed, as every file. `gauge` is null where none was asked for, or none can be used. */
export async function readGauge(
  words: Words,
): Promise<{ gauge: GaugeOfCurve | null; problems: readonly Problem[] }> {
  const path = words.text('gauge');
  const elevation_m = words.number('gauge-zero', { min: -1000, max: 1000 });
  const sigma_m = words.number('gauge-zero-sd', { min: 0, max: 100 });
  if (path === undefined && (elevation_m ?? sigma_m) !== undefined)
    throw new WrongUse('--gauge-zero: expected --gauge too, the annual means');
  if ((elevation_m === undefined) !== (sigma_m === undefined))
    throw new WrongUse(
      '--gauge-zero and --gauge-zero-sd: expected both, or neither where the zero is not known',
    );
  if (path === undefined) return { gauge: null, problems: [] };
  const table = await readPlainTable(path, ['year', 'level_m']);
  const name = table.name.replace(/\.[a-z]+$/i, '');
  const rows: (AnnualRow & { line: number })[] = [];
  for (const row of table.rows) {
    if (row.text('level_m') === '') continue;
    const before = table.problems.length;
    const year_ce = row.needed('year', { min: 1700, max: 2101 });
    const level_m = row.number('level_m');
    const sigma = row.number('sigma_m', { min: 0, max: 10 });
    const months = row.number('months', { min: 0, max: 12 });
    if (year_ce === null || level_m === null || table.problems.length > before) continue;
    rows.push({ year_ce, level_m, sigma_m: sigma, months, flag: row.text('flag'), line: row.line });
  }
  const { found, faults } = readAnnualMeans(rows);
  const problems = [
    ...table.problems,
    ...faults.map(({ reason, severity, column, row, found, expected, fix }) =>
      problem({
        severity,
        code: `gauge-${reason.replaceAll('_', '-')}`,
        table: table.name,
        line: rows[row]!.line,
        column,
        found,
        expected,
        fix,
      }),
    ),
  ];
  if (found === null) {
    if (rows.length === 0 && problems.length === 0)
      problems.push(
        problem({
          severity: 'error',
          code: 'gauge-too-few-years',
          table: table.name,
          column: 'level_m',
          found: 'no level in any row',
          expected: 'a level for each year',
          fix: 'Fill the levels in. The gauge is not used until then.',
        }),
      );
    return { gauge: null, problems };
  }
  const zero =
    elevation_m === undefined
      ? null
      : { elevation_m, shared: [{ group: `gauge:${name}`, sigma_m: sigma_m! }] };
  const means = { gauge: name, zero_elevation_m: elevation_m ?? null, ...found };
  return { gauge: { means, points: gaugePoints(name, found.blocks, zero) }, problems };
}

export const sayGauge = ({ means }: GaugeOfCurve): void => print(gaugeInWords(means));
