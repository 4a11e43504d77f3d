/** Which of their columns is which of ours, by the headings and what stands below them. */

import { activities } from './activity-columns.ts';
import { lettersOf } from './columns.ts';
import { densities } from './density-columns.ts';
import type { Heading } from './heading.ts';
import { isErrorHeading, isFlagHeading, knownHeading } from './known-headings.ts';
import type { Kind, MappedColumn } from './mapping.ts';
import type { TheirLine } from './sheet.ts';
import { needsUnit, targetsOf } from './targets.ts';
import { readTheirNumber } from './their-number.ts';

export function mapped(
  as: Kind,
  headings: readonly Heading[],
  body: readonly TheirLine[],
  decimal_comma: boolean,
): MappedColumn[] {
  const targets = targetsOf(as);
  const found = headings.map((heading, at) => {
    const isEmpty = body.every(({ cells }) => (cells[at] ?? '').trim() === '');
    return isEmpty ? null : knownHeading(as, heading.text, heading.words);
  });
  // Of two that mean the same the one known better, or the first.
  const best = new Map<string, number>();
  for (const [at, known] of found.entries()) {
    if (known !== null && (found[best.get(known.to) ?? -1]?.rank ?? Infinity) > known.rank)
      best.set(known.to, at);
  }
  const taken = new Set(best.keys());
  const columns = headings.map((heading, at): MappedColumn => {
    const known = found[at] ?? null;
    const to = known !== null && best.get(known.to) === at ? known.to : null;
    const sigma = heading.sigma === null ? {} : { sigma: heading.sigma };
    return { column: lettersOf(at), heading: heading.text, to, unit: heading.unit, ...sigma };
  });
  if (as === 'measurements' && !taken.has('property')) properties(columns, headings, body, decimal_comma);
  if (as === 'lead-profiles') activities(columns, headings);
  if (as === 'age-densities') densities(columns, headings, (at) => isMostlyNumbers(body, at, decimal_comma));
  if (as === 'layers' && !['thickness', 'top', 'bottom', 'depth'].some((to) => taken.has(to)))
    layers(columns, headings);
  if (as === 'tide-levels' && !taken.has('level')) tideLevels(columns, headings);
  oneSigmaFirst(columns, headings, as);
  unitsFromNeighbours(columns, targets);
  return columns;
}

const PLACE =
  /^(?:lat|lon|east|north|elev|alt|utm|x$|y$|z$|year|date|time|flag|qc|line|row|no$|number|lab ?id|lab ?no|distance above|mid)/;

/** Each column of numbers that is no place is a property. */
function properties(
  columns: MappedColumn[],
  headings: readonly Heading[],
  body: readonly TheirLine[],
  decimal_comma: boolean,
): void {
  let before: string | null = null;
  for (const [at, column] of columns.entries()) {
    const { words, unit, text } = headings[at]!;
    if ((column.to !== null && column.to !== 'value' && column.to !== 'sigma') || isFlagHeading(words))
      continue;
    if (text === '' || PLACE.test(words) || !isMostlyNumbers(body, at, decimal_comma)) continue;
    if (isErrorHeading(words)) {
      const of = ofWhich(words, columns) ?? before;
      if (of === null) continue;
      column.to = 'measurement error';
      column.property = of;
      column.unit ??= columns.find((c) => c.to === 'measurement' && c.property === of)?.unit ?? null;
      continue;
    }
    const property = propertyName(words) || text;
    if (columns.some((c) => c.to === 'measurement' && c.property === property)) continue;
    column.to = 'measurement';
    column.property = property;
    column.unit = unit;
    before = property;
  }
}

const propertyName = (words: string): string => words.replace(/^percent(?:age)? (?:of )?/, '').trim();

/** The property whose error a heading names: "excess pb210 activity se" of "excess pb210 activity". */
function ofWhich(words: string, columns: readonly MappedColumn[]): string | null {
  const stem = words
    .replace(
      /[±σ]|\+\s*\/?\s*-|\b(?:errors?|uncertainty|sigma|s\.?[de]\.?|std|precision|accuracy|of|1|2)\b/g,
      ' ',
    )
    .replace(/\s+/g, ' ')
    .trim();
  return columns.find((c) => c.to === 'measurement' && c.property === propertyName(stem))?.property ?? null;
}

function isMostlyNumbers(body: readonly TheirLine[], at: number, decimal_comma: boolean): boolean {
  let filled = 0;
  let numbers = 0;
  for (const { cells } of body.slice(0, 500)) {
    const read = readTheirNumber(cells[at] ?? '', decimal_comma);
    if (read.kind === 'blank') continue;
    filled++;
    if (read.kind === 'number') numbers++;
  }
  return filled > 0 && numbers * 2 >= filled;
}

const LAYER_THICKNESS = /^(.+?) (?:layer )?thic(?:k(?:ness)?)?$/;

/** A column of thickness for each layer, from the left down. */
function layers(columns: MappedColumn[], headings: readonly Heading[]): void {
  const named = columns.flatMap((column, at) => {
    const { words } = headings[at]!;
    const name = isFlagHeading(words) ? undefined : LAYER_THICKNESS.exec(words)?.[1];
    return name === undefined ? [] : [{ column, name }];
  });
  if (named.length < 2) return;
  for (const { column, name } of named) {
    column.to = 'layer';
    column.property = name;
  }
}

export const LEVEL = /^(hat|mhhw|mhws|mhwn|mhw|mtl|dtl|msl|mlwn|mlws|mllw|mlw|lat)\b/;

/** A column for each tide level. */
function tideLevels(columns: MappedColumn[], headings: readonly Heading[]): void {
  for (const [at, column] of columns.entries()) {
    const plain = headings[at]!.text.toLowerCase()
      .replace(/[_\s]+/g, ' ')
      .trim();
    const level = LEVEL.exec(plain)?.[1];
    if (column.to !== null || level === undefined || /error|uncert|sigma/.test(plain)) continue;
    column.to = 'tide level';
    column.property = level.toUpperCase();
  }
}

/** Where an error is given at 1 sigma and at 2 the first is taken, whichever comes first. */
function oneSigmaFirst(columns: MappedColumn[], headings: readonly Heading[], as: Kind): void {
  for (const [at, column] of columns.entries()) {
    if (column.to === null || column.sigma !== 2) continue;
    const better = columns.find(
      (other, i) =>
        other.to === null &&
        headings[i]!.sigma === 1 &&
        knownHeading(as, headings[i]!.text, headings[i]!.words)?.to === column.to,
    );
    if (better === undefined || at === columns.indexOf(better)) continue;
    better.to = column.to;
    column.to = null;
  }
}

/** Depths, and an elevation and its error, are in one unit where only one column says which. */
function unitsFromNeighbours(columns: MappedColumn[], targets: ReturnType<typeof targetsOf>): void {
  for (const kind of ['length', 'number'] as const) {
    const of = columns.filter(({ to }) => {
      const target = to === null ? undefined : targets.get(to);
      return target !== undefined && needsUnit(target) && target.column.kind === kind;
    });
    const said = new Set(of.map(({ unit }) => unit).filter((unit) => unit !== null));
    if (said.size === 1) for (const column of of) column.unit ??= [...said][0]!;
  }
}
