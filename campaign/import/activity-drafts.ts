/** Slices with their activities as a laboratory sends them: a row for each thing that was measured, at its place in the core. */
import {
  ACTIVITY_UNITS,
  activityFactor,
  DENSITY_UNITS,
  densityFactor,
  LEAD_NAMES,
} from '@stillstand/science/lead';
import type { PlaceInCore } from './core-place.ts';
import { readDecimal, times, writeDecimal } from './decimal.ts';
import { type Draft, draftOf, type FromLine } from './draft.ts';
import type { Given, Said } from './given.ts';
import type { Mapping } from './mapping.ts';
import { ownCells, putCell, withFixed, wordOf } from './own-cells.ts';
import type { Context } from './sampled.ts';
import { sliceEnds } from './slice-ends.ts';
import { targetsOf } from './targets.ts';
import { readTheirNumber } from './their-number.ts';

export function activityDrafts(givens: readonly Given[], context: Context): FromLine[] {
  const { mapping } = context;
  const { thickness } = mapping.fixed;
  const places = new Map<Given, PlaceInCore>();
  for (const given of givens) {
    if (thickness !== undefined && !given.said.has('thickness'))
      given.said.set('thickness', {
        text: thickness,
        column: { column: '', heading: 'thickness', to: 'thickness', unit: null },
      });
  }
  for (const [, ofCore] of Map.groupBy(givens, (given) => wordOf(given, mapping, 'hole')))
    for (const [i, place] of sliceEnds(ofCore, mapping).entries()) places.set(ofCore[i]!, place);
  return givens.map((given) => slice(given, places.get(given)!, context));
}

function slice(given: Given, place: PlaceInCore, context: Context): FromLine {
  const { mapping } = context;
  const measured = given.many.filter(({ column }) => column.to === 'measurement');
  const drafts = measured.map((said) => measurement(given, said, mapping)).filter((draft) => draft !== null);
  if (drafts.length === 0) return { aside: 'nothing was measured in this line' };
  const where = ownCells(given, mapping, 'measurements');
  withFixed(where, mapping);
  located(where, place, context);
  for (const draft of drafts) {
    draft.cells = { ...where.cells, ...draft.cells };
    draft.faults.push(...where.faults);
    for (const name of where.tried) draft.tried.add(name);
  }
  delete drafts[0]!.cells['note'];
  drafts[0]!.notes.unshift(
    ...where.notes,
    ...(where.cells['note'] === undefined ? [] : [where.cells['note']]),
  );
  for (const draft of drafts.slice(1)) delete draft.cells['note'];
  return { drafts };
}

/** A slice is a sample of the campaign where its label is one; else a place in a core. */
function located(draft: Draft, place: PlaceInCore, { samples, holeCalled }: Context): void {
  const label = draft.cells['sample'] ?? '';
  const known = label === '' ? null : samples.named(label, draft.line);
  if (known !== null) {
    draft.cells['sample'] = known;
    for (const name of ['hole', 'depth_basis', 'run']) delete draft.cells[name];
    return;
  }
  if (label !== '') draft.notes.push(`slice: ${label}`);
  delete draft.cells['sample'];
  draft.faults.push(...place.faults);
  draft.notes.push(...place.notes);
  const { hole } = draft.cells;
  if (hole === undefined) {
    const fix = 'Choose the column that names it, or say one core for all lines.';
    draft.faults.push({
      column: 'hole',
      fault: { code: 'no-core', found: '', expected: 'the core the slice is of', fix },
    });
  } else draft.cells['hole'] = holeCalled(hole);
  if (place.top !== null && place.bottom !== null && !place.isPoint) {
    draft.cells['top'] = place.top;
    draft.cells['bottom'] = place.bottom;
  } else if (place.faults.length === 0) {
    const fix =
      'State top and bottom, or the thickness. Middles alone do where the slices lie one below the other from the surface.';
    draft.faults.push({
      column: 'depth',
      fault: { code: 'no-slice', found: place.top ?? '', expected: 'top and bottom of the slice', fix },
    });
  }
}

/** Null for a cell that says there is nothing. */
function measurement(given: Given, said: Said, mapping: Mapping): Draft | null {
  const targets = targetsOf('lead-profiles');
  const draft = draftOf('measurements', given);
  const property = said.column.property ?? said.column.heading;
  draft.cells['property'] = property;
  putCell(draft, 'value', targets.get('measurement')!.column, said, mapping);
  const isSaid = draft.cells['value'] !== undefined || draft.cells['qualifier'] !== undefined;
  if (!isSaid && draft.faults.length === 0) return null;
  const belonging = (to: string): Said | undefined =>
    given.many.find(({ column }) => column.to === to && column.property === property);
  const error = belonging('measurement error');
  if (error !== undefined) {
    putCell(draft, 'sigma', targets.get('measurement error')!.column, error, mapping);
    if (error.column.unit === '%') ofValue(draft);
  }
  limited(draft, said, belonging('measurement limit'), mapping);
  measuredIn(draft, said);
  return draft;
}

/** An error in per cent of the value. */
function ofValue({ cells }: Draft): void {
  const [value, share] = [readDecimal(cells['value'] ?? ''), readDecimal(cells['sigma'] ?? '')];
  if (value === null || share === null) delete cells['sigma'];
  else {
    const digits = value.digits < 0n ? -value.digits : value.digits;
    const scale = value.scale + share.scale;
    cells['sigma'] = writeDecimal(times({ digits: digits * share.digits, scale }, 1, 2));
  }
}

/** What is not detected lies below a limit: the cell’s own, that of its column of limits, or that of all cells. */
function limited(draft: Draft, said: Said, column: Said | undefined, mapping: Mapping): void {
  const { cells } = draft;
  const isNothing = isZero(cells['value']) && isZero(cells['sigma']);
  if (cells['qualifier'] !== 'less_than' && !isNothing) return;
  const stated = column === undefined ? null : readTheirNumber(column.text, mapping.decimal_comma);
  const limit = stated?.kind === 'number' && stated.value !== '' ? stated.value : (said.column.limit ?? '');
  if (isNothing) {
    // Without a limit 0 ± 0 stays as the laboratory wrote it.
    if (limit === '') return;
    cells['qualifier'] = 'less_than';
    delete cells['value'];
  }
  delete cells['sigma'];
  if (cells['value'] !== undefined) return;
  draft.notes.push(`${said.column.heading}: ${said.text}`);
  if (limit !== '') cells['value'] = limit;
}

const isZero = (cell: string | undefined): boolean => cell !== undefined && readDecimal(cell)?.digits === 0n;

/** A number without a unit, or in one that no activity has, is not guessed. */
function measuredIn(draft: Draft, said: Said): void {
  const { cells, faults } = draft;
  if (said.column.unit !== null) cells['unit'] ??= said.column.unit;
  if (cells['value'] === undefined) return;
  const isDensity = cells['property'] === LEAD_NAMES.density;
  const unit = cells['unit'] ?? '';
  const isKnown = (isDensity ? densityFactor(unit) : activityFactor(unit)) !== null;
  if (isKnown) return;
  faults.push({
    column: said.column.heading,
    fault: {
      code: unit === '' ? 'no-unit' : 'wrong-unit',
      found: unit === '' ? said.text : `${said.text} ${unit}`,
      expected: `a unit of ${isDensity ? `dry density: ${DENSITY_UNITS}` : `activity: ${ACTIVITY_UNITS}`}`,
      fix: `State the unit of “${said.column.heading}”.`,
    },
  });
}
