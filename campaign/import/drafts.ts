/** The rows that one line becomes, by what the table is about; layers are counted over several lines, next door. */
import type { Column, TableName } from '@stillstand/campaign/tables';
import { fromUtm } from '@stillstand/science/survey';
import { placeInCore, textOf } from './core-place.ts';
import { negated, readDecimal, sum, writeDecimal } from './decimal.ts';
import { type Draft, draftOf, type FromLine } from './draft.ts';
import type { Given, Said } from './given.ts';
import type { Kind, Mapping } from './mapping.ts';
import { atSigma, inMetres, ourCell, readLength, writtenLength } from './read-cell.ts';
import type { samplesAt } from './samples-at.ts';
import { TABLE_OF, targetsOf } from './targets.ts';
import { larger } from './their-number.ts';

export interface Context {
  mapping: Mapping;
  samples: ReturnType<typeof samplesAt>;
  /** Our label of a core they name. */
  holeCalled(typed: string): string;
}

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
]);
const NAMES: ReadonlySet<string> = new Set(['hole', 'site', 'sample', 'material', 'source', 'note']);
const saysOnlyNames = ({ said }: Given): boolean => [...said.keys()].every((name) => NAMES.has(name));

/** The columns of the table itself. */
export function ownCells(given: Given, mapping: Mapping, table: TableName): Draft {
  const draft = draftOf(table, given);
  const targets = targetsOf(mapping.as);
  for (const [name, said] of given.said) {
    const target = targets.get(name)!;
    if (target.way === 'own' && !isOfDepth(mapping.as, name))
      putCell(draft, name, target.column, said, mapping);
  }
  return draft;
}

/** Depths of a sample are read together. */
const isOfDepth = (as: Kind, name: string): boolean =>
  (as === 'samples' || as === 'measurements' || as === 'layers') && (name === 'top' || name === 'bottom');

/** An error column of ours states its sigma in its name; otherwise it is 1 sigma. */
const isError = (name: string): boolean => /(?:^|_)(?:error|sigma|2sigma)(?:_|$)/.test(name);
const sigmaOf = (name: string): 1 | 2 => (name.includes('2sigma') ? 2 : 1);

function putCell(draft: Draft, name: string, column: Column, said: Said, mapping: Mapping): void {
  const read = ourCell(name, column, said, mapping);
  draft.notes.push(...read.notes);
  if (read.fault !== null) {
    draft.tried.add(name);
    draft.faults.push({ column: said.column.heading, fault: read.fault });
    return;
  }
  const { number } = read;
  if (read.cell !== null) {
    const theirs = said.column.sigma ?? 1;
    draft.cells[name] = isError(name) ? atSigma(read.cell, theirs, sigmaOf(name)) : read.cell;
    if (isError(name) && theirs !== sigmaOf(name)) draft.notes.push(`${said.column.heading}: ${said.text}`);
  }
  if (draft.table === 'measurements' && name === 'value' && number?.unit != null)
    draft.cells['unit'] ??= number.unit;
  if (number?.qualifier == null && number?.error == null) return;
  const isLimited = name === 'value' && (draft.table === 'determinations' || draft.table === 'measurements');
  if (number.qualifier !== null) {
    if (isLimited) draft.cells['qualifier'] = number.qualifier;
    else draft.notes.push(`${said.column.heading}: ${said.text}`);
  }
  if (number.error === null) return;
  if (name === 'value' && draft.table === 'determinations') draft.cells['error'] ??= number.error;
  else if (name === 'value' && draft.table === 'measurements') draft.cells['sigma'] ??= number.error;
  else draft.notes.push(`${said.column.heading}: ${said.text}`);
}

/** What is the same in every row that does not say it itself. */
export function withFixed(draft: Draft, { fixed, as }: Mapping): void {
  const targets = targetsOf(as);
  for (const [name, word] of Object.entries(fixed)) {
    if (word.trim() === '' || (draft.cells[name] ?? '') !== '') continue;
    if (targets.get(name)?.way === 'own') draft.cells[name] = word;
  }
}

/** A word that is the same in every row, or the line's own. */
const wordOf = (given: Given, mapping: Mapping, name: string): string =>
  textOf(given, name) || (mapping.fixed[name] ?? '');

/** Latitude and longitude of grid coordinates, to 1e-7 degrees (a centimetre); what was stated goes into the note. */
function positioned(draft: Draft, mapping: Mapping): void {
  const { said } = draft.given;
  const read = (name: string): number | null => {
    const cell = said.get(name);
    if (cell === undefined) return null;
    draft.notes.push(`${cell.column.heading}: ${cell.text}`);
    const own = { ...cell, column: { ...cell.column, unit: cell.column.unit ?? 'm' } };
    const metres = ourCell(name, targetsOf('cores').get(name)!.column, own, mapping).cell;
    return metres === null ? null : Number(metres);
  };
  const [easting_m, northing_m] = [read('easting'), read('northing')];
  const zone = /^(\d{1,2})\s*([NS])$/i.exec(wordOf(draft.given, mapping, 'utm_zone').trim());
  if (easting_m === null || northing_m === null || zone === null) return;
  const hemisphere = zone[2]!.toUpperCase() === 'N' ? 'N' : 'S';
  const place = fromUtm({ easting_m, northing_m, zone: Number(zone[1]), hemisphere });
  if (place === null) return;
  draft.notes.push(`UTM zone ${zone[1]}${hemisphere}`);
  draft.cells['latitude_deg'] ??= place.latitude_deg.toFixed(7);
  draft.cells['longitude_deg'] ??= place.longitude_deg.toFixed(7);
}

function pushed(draft: Draft, mapping: Mapping): void {
  if (draft.cells['to'] !== undefined) return;
  const from = draft.given.said.get('from');
  const read = (name: string) => {
    const said = draft.given.said.get(name);
    return said === undefined ? null : readLength(said, mapping).from;
  };
  const top = from === undefined ? null : readLength(from, mapping).from;
  const [length, recovered, shortening] = ['length', 'recovered', 'shortening'].map(read);
  const parts =
    length != null
      ? [top, length]
      : recovered != null && shortening != null
        ? [top, recovered, shortening]
        : null;
  const metres = parts?.map((part) => (part == null ? null : inMetres(part)));
  if (metres === undefined || metres.some((part) => part === null)) return;
  const total = metres.reduce((a, b) => sum(a!, b!))!;
  draft.cells['to'] = writtenLength({ value: total, unit: 'm' });
  draft.notes.push(length != null ? 'to = from + length' : 'to = from + recovered + shortening');
}

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

/** The sample of a line; its fault keeps the rows of the line from being used. */
function sampled(draft: Draft, { mapping, samples, holeCalled }: Context): void {
  const { given } = draft;
  const place = placeInCore(given, mapping);
  const hole = wordOf(given, mapping, 'hole');
  const of = samples.of({
    line: given.line,
    label: draft.cells['sample'] ?? '',
    hole: hole === '' ? '' : holeCalled(hole),
    basis: wordOf(given, mapping, 'depth_basis'),
    run: wordOf(given, mapping, 'run'),
    place,
    material: wordOf(given, mapping, 'material'),
    note: place.notes.join('; '),
  });
  draft.tried.add('sample');
  if ('fault' in of) draft.faults.push(of);
  else draft.cells['sample'] = of.sample;
  for (const name of ['hole', 'depth_basis', 'run', 'top', 'bottom']) {
    if (draft.table !== 'samples') delete draft.cells[name];
  }
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
  // "SHCal 20" as the table writes it.
  const curve = draft.cells['calibration_curve'];
  if (curve !== undefined) draft.cells['calibration_curve'] = curve.toLowerCase().replace(/[^a-z0-9_]/g, '');
}

function measurements(given: Given, context: Context): FromLine {
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

/** Errors that differ up and down give the larger; years CE become years before 1950. */
function published(draft: Draft, mapping: Mapping): void {
  const targets = targetsOf('published-points');
  const { said } = draft.given;
  for (const [ours, one, other] of [
    ['rsl_2sigma_m', 'rsl error up', 'rsl error down'],
    ['age_2sigma_yr', 'age error older', 'age error younger'],
  ] as const) {
    const errors = [one, other].flatMap((name) => {
      const cell = said.get(name);
      if (cell === undefined) return [];
      const read = ourCell(ours, targets.get(ours)!.column, cell, mapping);
      if (read.fault !== null) draft.faults.push({ column: cell.column.heading, fault: read.fault });
      return read.cell === null ? [] : [atSigma(read.cell, cell.column.sigma ?? 1, 2)];
    });
    if (errors.length === 0 || draft.cells[ours] !== undefined) continue;
    const error = errors.reduce(larger);
    draft.cells[ours] = error;
    if (new Set(errors).size > 1) {
      draft.notes.push(
        `${said.get(one)!.column.heading} ${said.get(one)!.text}, ${said.get(other)!.column.heading} ${said.get(other)!.text}: the larger is written`,
      );
    }
  }
  const year = said.get('age_ce');
  if (year === undefined || draft.cells['age_cal_bp'] !== undefined) return;
  const read = ourCell('age_ce', targets.get('age_ce')!.column, year, mapping);
  const ce = readDecimal(read.cell ?? '');
  if (read.fault !== null) draft.faults.push({ column: year.column.heading, fault: read.fault });
  if (ce !== null) draft.cells['age_cal_bp'] = writeDecimal(sum({ digits: 1950n, scale: 0 }, negated(ce)));
}
