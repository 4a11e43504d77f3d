/** A comparison as it is printed: the changed rows by number, then the changed numbers, each with the rows under it. */
import type { Comparison, Effects, RowChange, Side, Unit } from '@stillstand/campaign/compare';
import { MAIN_CURVE } from '@stillstand/campaign/results';
import { counted, printed, signed } from '@stillstand/output/words';
import type { SideRead } from './compared-side.ts';
import { print, sayTable } from './say.ts';

const DECIMALS: Readonly<Record<Unit, number>> = { m: 3, 'mm/yr': 2, 'cal BP': 0, ratio: 3 };
/** Of each kind so many are printed; tables and JSON have all. */
const SHOWN = 15;
/** Of rows under one number. */
const NAMED = 6;
const WITHIN = 'within Monte-Carlo error';

type Change = Comparison['changes'][number];

const TITLES: Readonly<Record<Change['kind'], string>> = {
  rate: 'Rates',
  level: 'Level',
  point: 'Points',
  'age of a point': 'Ages of points',
  date: 'Dates',
  hole: 'Holes',
  sample: 'Samples',
};

export function sayComparison(comparison: Comparison, old: SideRead, now: SideRead): void {
  const { campaigns, convergence, compared, same, rounded, changes, rows } = comparison;
  if (campaigns === 'different') print('TWO DIFFERENT CAMPAIGNS: their identities differ.', '');
  print(sideLine('Old', old), sideLine('New', now));
  for (const { curve, old: a, now: b } of convergence)
    print(`${curveCalled(curve)}: ${settled(a)} before, ${settled(b)} now.`);
  const [appeared, vanished] = [changes.filter((c) => c.old === null), changes.filter((c) => c.now === null)];
  print(
    `${counted(compared, 'number')} in both: ${same} the same, ${rounded} moved by less than rounding, ` +
      `${changes.length - appeared.length - vanished.length} changed. ${appeared.length} new, ${vanished.length} gone.`,
  );
  sayRows(comparison);
  for (const [kind, title] of Object.entries(TITLES)) {
    const ofKind = changes.filter((each) => each.kind === kind);
    if (ofKind.length > 0) sayNumbers(title, ofKind, rows ?? []);
  }
  if (changes.length > 0) print('', '± is 2 sigma. ÷ σ: difference over 1 sigma.');
}

const sideLine = (which: string, { path, side, isFrozen, program }: SideRead): string => {
  const { name, computation } = side!.results;
  const by = isFrozen
    ? `frozen, computation ${computation}${program === null ? '' : `, Stillstand ${program}`}`
    : `computed now, computation ${computation}`;
  return `${which}: ${path}, ${name === '' ? 'campaign without a name' : name} (${by})`;
};

export const curveCalled = (curve: string): string =>
  curve === MAIN_CURVE ? 'Curve of the report' : `Curve of ${curve}`;

const settled = (converged: boolean | null): string =>
  converged === null ? 'no curve' : converged ? 'converged' : 'NOT CONVERGED';

function sayRows({ rows, computation, unlike }: Comparison): void {
  if (rows === null) return;
  const isOther = computation.old !== computation.now;
  if (isOther)
    print(
      `The version of the computation differs: ${computation.old} before, ${computation.now} now ` +
        `(docs/methods/results.md lists what each changed).`,
    );
  for (const [which, numbers] of isOther
    ? ([
        ['old', unlike.old],
        ['new', unlike.now],
      ] as const)
    : [])
    if (numbers.length > 0)
      print(
        `Of the program: ${counted(numbers.length, 'number')} of the ${which} results (without curves) differ when this ` +
          'version computes their campaign. --why states its share of the rates.',
      );
  if (rows.length === 0) {
    print(
      isOther
        ? 'No row of the campaign changed: what differs is of the program, not of the data.'
        : 'No row of the campaign changed.',
    );
    return;
  }
  print('', `Changed in the campaign: ${counted(rows.length, 'row')}`);
  for (const [i, row] of rows.slice(0, 2 * SHOWN).entries()) print(`  [${i + 1}] ${rowInWords(row)}`);
  if (rows.length > 2 * SHOWN) print(`  … and ${rows.length - 2 * SHOWN} more; --out and --json have all`);
}

function rowInWords({ name, change, cells }: RowChange): string {
  const said = cells.filter(({ column }) => !['by', 'device', 'time', 'seq'].includes(column));
  if (change === 'changed')
    return `${name}: ${(said.length > 0 ? said : cells).map(({ called, old, now }) => `${called} ${quoted(old)} → ${quoted(now)}`).join('; ')}`;
  const typed = said
    .slice(0, NAMED)
    .map(({ called, old, now }) => `${called} ${change === 'added' ? now : old}`);
  return `${name}: ${change}${typed.length === 0 ? '' : ` (${typed.join(', ')})`}`;
}

const quoted = (cell: string): string => (cell === '' ? 'empty' : cell);

function sayNumbers(title: string, changes: readonly Change[], rows: readonly RowChange[]): void {
  const numberOf = new Map(rows.map((row, i) => [row, i + 1]));
  const unit = changes[0]!.unit;
  print('', `${title}, ${changes.every((each) => each.unit === unit) ? unit : 'm and ratio'}`);
  sayTable([
    ['', 'old', 'new', 'difference', '÷ σ', 'rows under it', 'remarks'],
    ...changes
      .slice(0, SHOWN)
      .map((each) => [
        withCommas(each.name),
        sideInWords(each.old, each),
        sideInWords(each.now, each),
        each.difference === null ? '' : signed(each.difference, DECIMALS[each.unit]),
        each.in_sigma === null ? '' : signed(each.in_sigma, 2),
        underInWords(each.rows.map((row) => numberOf.get(row)!)),
        remarks(each),
      ]),
  ]);
  if (changes.length > SHOWN) print(`… and ${changes.length - SHOWN} more; --out and --json have all`);
}

/** "rate from 8,500 to 7,500 cal BP": labels of people stay as they are. */
const withCommas = (name: string): string =>
  name.replace(/\b\d{4,}(?= to \d| cal BP)/g, (age) => printed(Number(age)));

function sideInWords(side: Side | null, { unit, isSigned }: Change): string {
  if (side === null) return '';
  const value = isSigned ? signed : printed;
  const spread = side.sigma === null ? '' : ` ± ${printed(2 * side.sigma, DECIMALS[unit])}`;
  return `${value(side.value, DECIMALS[unit])}${spread}`;
}

const underInWords = (numbers: readonly number[]): string =>
  numbers.length <= NAMED
    ? numbers.map((n) => `[${n}]`).join(' ')
    : `[${numbers[0]}] … [${numbers.at(-1)}], ${numbers.length} rows`;

function remarks({ old, now, within_monte_carlo, cause }: Change): string {
  const [before, after] = [old?.status ?? null, now?.status ?? null];
  const status =
    before === after && before !== null
      ? [before]
      : [...(before === null ? [] : [`${before} before`]), ...(after === null ? [] : [`${after} now`])];
  return [
    ...(old === null ? ['new'] : now === null ? ['gone'] : []),
    ...status,
    ...(within_monte_carlo ? [WITHIN] : []),
    ...(cause === 'program' ? ['the program'] : cause === 'not known' ? ['no changed row'] : []),
  ].join(', ');
}

/** By how much each change alone moved the rates. */
export function sayEffects({ rates, groups }: Effects): void {
  print('', 'Why: the old campaign computed again with one change at a time, mm/yr');
  if (rates.length === 0) print('No rate is in both computations.');
  for (const [i, rate] of rates.entries()) {
    const { name, old, now, program, remainder } = rate;
    print('', `${withCommas(name)}: ${signed(old, 2)} → ${signed(now, 2)}, moved by ${signed(now - old, 2)}`);
    sayTable([
      ...groups.map(({ name: of, effects }) => {
        const { moved, within_monte_carlo } = effects[i]!;
        const note = moved === null ? 'the rate is not computed then' : moved === 0 ? 'unchanged' : '';
        return [
          `  ${of}`,
          moved === null ? '–' : signed(moved, 2),
          within_monte_carlo && moved !== 0 ? WITHIN : note,
        ];
      }),
      ['  the program and its published curves', signed(program, 2), ''],
      [
        '  remainder: effects need not add up',
        remainder === null ? '–' : signed(remainder, 2),
        rate.remainder_within_monte_carlo && remainder !== 0 ? WITHIN : '',
      ],
    ]);
  }
}
