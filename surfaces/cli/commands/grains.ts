/** `stillstand grains`: grain-size statistics of samples in a table. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import {
  type GrainFault,
  type GrainStatistics,
  grainClasses,
  grainStatistics,
  millimetresFromPhi,
  type ScaleName,
  SIZE_SCALES,
  textureName,
} from '@stillstand/science/laboratory';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { type GrainRow, readGrainTable } from '../grain-table.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';

export const grains: Command = {
  name: 'grains',
  summary: 'Computes grain-size statistics and the parts of gravel, sand, silt and clay from classes.',
  usage: ['grains CLASSES.csv [--scale wentworth|iso_14688] [--mass] [--json]'],
  options: {
    scale: {
      type: 'string',
      value: 'NAME',
      about: 'limits of gravel, sand, silt and clay: wentworth (if not given) or iso_14688',
    },
    mass: { type: 'boolean', about: 'the numbers are masses, which need not sum to 100' },
  },
  more: [
    'CLASSES.csv has a row for each sample (column sample or id) and a column for each class, in per cent, named by its limits',
    '(> 2 mm, 1-2 mm, 63-125 µm, 3-4 phi, < 63 µm) or by a word of the scale (gravel, fine sand, silt, clay, mud); NAME_sigma has the',
    '1 sigma of one; <0.5 is a limit. Statistics of Folk & Ward 1957 (divisor 6.6) and by moments, in phi. What lies in a class',
    'without an end stays unknown. Methods: docs/methods/laboratory.md.',
  ].join('\n'),
  run,
};

interface Described {
  row: GrainRow;
  faults: readonly GrainFault[];
  sum_percent: number | null;
  statistics: GrainStatistics | null;
}

async function run(words: Words): Promise<ExitCode> {
  const [path, ...others] = words.positionals;
  if (path === undefined) throw new WrongUse('Expected a file of classes');
  if (others.length > 0) throw new WrongUse(`One file at a time; found also ${others.join(' ')}`);
  const scale = scaleOf(words.text('scale'));
  const { table, rows } = await readGrainTable(path, scale);
  const all = rows.map((row): Described => {
    const made = grainClasses(row.classes, words.flag('mass'));
    return {
      row,
      faults: made.faults,
      sum_percent: made.sum_percent,
      statistics: grainStatistics(made, SIZE_SCALES[scale]),
    };
  });
  if (words.flag('json')) sayJson({ scale, samples: all.map(plain) });
  else if (all.length > 0) say(all, scale);
  return sayProblems([
    ...table.problems,
    ...all.flatMap(({ row, faults }) => faults.map((fault) => said(table.name, row, fault))),
  ]);
}

function scaleOf(name: string | undefined): ScaleName {
  if (name === undefined || name === 'wentworth') return 'wentworth';
  if (name === 'iso_14688') return name;
  throw new WrongUse(`--scale: found “${name}”, expected wentworth or iso_14688`);
}

const said = (
  table: string,
  { name, line }: GrainRow,
  { code, severity, classes, found, expected, fix }: GrainFault,
): Problem =>
  problem({
    severity,
    code: `grain-size-${code}`,
    table,
    line,
    label: name,
    ...(classes[0] === undefined ? {} : { column: classes[0] }),
    found,
    expected,
    fix,
  });

function plain({ row, sum_percent, statistics }: Described) {
  if (statistics === null) return { sample: row.name, sum_percent, statistics: null };
  const { percentiles_phi, folk_ward, parts } = statistics;
  const [p5, p16, p25, p50, p75, p84, p95] = percentiles_phi;
  return {
    sample: row.name,
    sum_percent,
    statistics: {
      ...statistics,
      percentiles_phi: { p5, p16, p25, p50, p75, p84, p95 },
      mean_mm: folk_ward === null ? null : millimetresFromPhi(folk_ward.mean_phi),
      name: textureName(parts),
    },
  };
}

const shown = (value: number | null | undefined, decimals: number): string =>
  value === null || value === undefined ? '–' : value.toFixed(decimals).replace('-', '−');

function say(all: readonly Described[], scale: ScaleName): void {
  print(`Limits of ${SIZE_SCALES[scale].printed}; φ by Folk & Ward 1957, divisor 6.6`, '');
  sayTable([
    [
      'sample',
      'gravel',
      'sand',
      'silt',
      'clay %',
      'median φ',
      'mean',
      'sorting',
      'skewness',
      'kurtosis',
      'name',
    ],
    ...all.map(({ row, statistics }) => {
      const { gravel, sand, silt, clay } = statistics?.parts ?? {};
      const graphic = statistics?.folk_ward;
      return [
        row.name,
        ...[gravel, sand, silt, clay].map((part) => shown(part, 1)),
        shown(statistics?.percentiles_phi[3], 2),
        shown(graphic?.mean_phi, 2),
        shown(graphic?.sorting_phi, 2),
        shown(graphic?.skewness, 2),
        shown(graphic?.kurtosis, 2),
        statistics === null ? '–' : namedWith(statistics),
      ];
    }),
  ]);
}

/** "silty sand, poorly sorted, fine skewed, leptokurtic". */
const namedWith = ({ parts, folk_ward }: GrainStatistics): string =>
  [
    textureName(parts) ?? 'no name',
    ...(folk_ward === null
      ? []
      : [folk_ward.sorting_class, folk_ward.skewness_class, folk_ward.kurtosis_class]),
  ].join(', ');
