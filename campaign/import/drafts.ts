/** The rows that one line becomes, by what the table is about; layers are counted over several lines, next door. */
import { PUBLISHED_CURVES } from '@stillstand/campaign/tables';
import { positioned, pushed } from './core-drafts.ts';
import { placeInCore } from './core-place.ts';
import type { Draft, FromLine } from './draft.ts';
import type { Given } from './given.ts';
import type { Kind } from './mapping.ts';
import { measurements } from './measurement-drafts.ts';
import { ownCells, putCell, withFixed, wordOf } from './own-cells.ts';
import { published } from './published-drafts.ts';
import { type Context, sampled } from './sampled.ts';
import { TABLE_OF, targetsOf } from './targets.ts';

export function draftsOf(given: Given, context: Context): FromLine {
  const { as } = context.mapping;
  if (as === 'measurements') return measurements(given, context);
  if (as === 'tide-levels' && given.many.length > 0) return tideLevels(given, context);
  const draft = ownCells(given, context.mapping, TABLE_OF[as]);
  if (Object.keys(draft.cells).length === 0 && draft.faults.length === 0) {
    return { aside: 'nothing in the columns that are used' };
  }
  if (NAMES_ALONE.has(as) && saysOnlyNames(given))
    return { aside: 'a name, and nothing else in the columns that are used' };
  withFixed(draft, context.mapping);
  if (as === 'cores') positioned(draft, context.mapping);
  if (as === 'pushes') pushed(draft, context.mapping);
  if (as === 'samples') placed(draft, context);
  if (as === 'dates') dated(draft, context);
  if (as === 'points') claimed(draft, context);
  if (as === 'published-points') published(draft, context.mapping);
  return { drafts: [draft] };
}

/** Tables in which a line that says no more than whose it is says nothing. */
const NAMES_ALONE: ReadonlySet<Kind> = new Set([
  'pushes',
  'dates',
  'tide-levels',
  'points',
  'published-points',
  'calibration-curves',
]);
/** A method that is asked for is no result. */
const NAMES: ReadonlySet<string> = new Set([
  'hole',
  'site',
  'sample',
  'material',
  'method',
  'source',
  'curve',
  'note',
]);
const saysOnlyNames = ({ said }: Given): boolean => [...said.keys()].every((name) => NAMES.has(name));

function placed(draft: Draft, { mapping, holeCalled }: Context): void {
  const place = placeInCore(draft.given, mapping);
  draft.faults.push(...place.faults);
  draft.notes.push(...place.notes);
  if (place.top !== null) draft.cells['top'] = place.top;
  if (place.bottom !== null) draft.cells['bottom'] = place.bottom;
  if (draft.cells['hole'] !== undefined) draft.cells['hole'] = holeCalled(draft.cells['hole']);
  const isLevelled = place.top === null && draft.cells['elevation_m'] !== undefined;
  if (isLevelled) draft.cells['depth_basis'] = 'elevation';
  draft.cells['sample'] ??= place.top === null ? '' : `${draft.cells['hole'] ?? ''} ${place.top}`.trim();
}

/** A claim without a label of its own is called after its sample. */
function claimed(draft: Draft, context: Context): void {
  sampled(draft, context);
  const { sample } = draft.cells;
  if (sample !== undefined) draft.cells['point'] ??= sample;
}

function dated(draft: Draft, context: Context): void {
  sampled(draft, context);
  const material = wordOf(draft.given, context.mapping, 'material');
  if (material !== '') draft.cells['fraction_dated'] ??= material;
  // Published tables may leave out the code of the laboratory.
  if (!context.mapping.columns.some(({ to }) => to === 'lab_code') && draft.cells['sample'] !== undefined) {
    draft.cells['lab_code'] ??= draft.cells['sample'];
  }
  if (draft.cells['method'] !== 'radiocarbon') return;
  // "SHCal 20" as the table writes it; a curve of one's own keeps its name.
  const curve = draft.cells['calibration_curve']?.toLowerCase().replace(/[^a-z0-9_]/g, '');
  const published = PUBLISHED_CURVES.find((name) => name === curve);
  if (published !== undefined) draft.cells['calibration_curve'] = published;
}

function tideLevels(given: Given, { mapping }: Context): FromLine {
  const target = targetsOf('tide-levels').get('elevation_m')!;
  const drafts = given.many.map((said) => {
    const draft = ownCells(given, mapping, 'tide_levels');
    draft.cells['level'] = said.column.property ?? said.column.heading;
    putCell(draft, 'elevation_m', target.column, said, mapping);
    const sigma = given.said.get('uncertainty');
    if (sigma !== undefined)
      putCell(draft, 'sigma_m', targetsOf('tide-levels').get('sigma_m')!.column, sigma, mapping);
    withFixed(draft, mapping);
    return draft;
  });
  const said = drafts.filter(({ cells, faults }) => cells['elevation_m'] !== undefined || faults.length > 0);
  return said.length === 0 ? { aside: 'no level is stated' } : { drafts: said };
}
