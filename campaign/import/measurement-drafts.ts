/** Measurements: one to a line, or a column for each property with its error. */
import { type Draft, draftOf, type FromLine } from './draft.ts';
import type { Given } from './given.ts';
import type { Mapping } from './mapping.ts';
import { ownCells, putCell } from './own-cells.ts';
import { type Context, sampled } from './sampled.ts';
import { targetsOf } from './targets.ts';

export function measurements(given: Given, context: Context): FromLine {
  const { mapping } = context;
  const isLong =
    given.said.has('property') ||
    given.said.has('value') ||
    mapping.columns.some(({ to }) => to === 'property');
  const drafts = isLong ? [longMeasurement(given, mapping)] : wideMeasurements(given, mapping);
  if (drafts.length === 0) return { aside: 'nothing was measured in this line' };
  const sample = ownCells(given, mapping, 'measurements');
  sampled(sample, context);
  for (const draft of drafts) {
    draft.faults.push(...sample.faults);
    draft.tried.add('sample');
    if (sample.cells['sample'] !== undefined) draft.cells['sample'] = sample.cells['sample'];
    for (const name of ['method', 'batch', 'unit'] as const) {
      const word = sample.cells[name] ?? mapping.fixed[name];
      if (word !== undefined && word !== '') draft.cells[name] ??= word;
    }
  }
  const note = sample.cells['note'];
  if (note !== undefined) drafts[0]!.notes.unshift(note);
  return { drafts };
}

function longMeasurement(given: Given, mapping: Mapping): Draft {
  const draft = ownCells(given, mapping, 'measurements');
  delete draft.cells['note'];
  if (mapping.fixed['property'] !== undefined) draft.cells['property'] ??= mapping.fixed['property'];
  const unit = given.said.get('value')?.column.unit;
  if (unit != null) draft.cells['unit'] ??= unit;
  return draft;
}

function wideMeasurements(given: Given, mapping: Mapping): Draft[] {
  const target = targetsOf('measurements').get('value')!;
  const sigma = targetsOf('measurements').get('sigma')!;
  const drafts: Draft[] = [];
  for (const said of given.many.filter(({ column }) => column.to === 'measurement')) {
    const draft = draftOf('measurements', given);
    draft.cells['property'] = said.column.property ?? said.column.heading;
    putCell(draft, 'value', target.column, said, mapping);
    // A cell that says there is nothing is no measurement.
    if (
      draft.cells['value'] === undefined &&
      draft.cells['qualifier'] === undefined &&
      draft.faults.length === 0
    )
      continue;
    const { unit } = said.column;
    if (unit !== null) draft.cells['unit'] ??= unit;
    const error = given.many.find(
      ({ column }) => column.to === 'measurement error' && column.property === said.column.property,
    );
    if (error !== undefined) putCell(draft, 'sigma', sigma.column, error, mapping);
    drafts.push(draft);
  }
  return drafts;
}
