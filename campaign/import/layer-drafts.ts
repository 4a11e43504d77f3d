/** Layers: with top and bottom; with tops alone, each ending at the next; or as thicknesses, counted from the top down. */
import { placeInCore } from './core-place.ts';
import { type Decimal, middle, sum } from './decimal.ts';
import { type Draft, draftOf, type FromLine } from './draft.ts';
import type { Given, Said } from './given.ts';
import { type Mapping, wordFor } from './mapping.ts';
import { ownCells, withFixed } from './own-cells.ts';
import { inMetres, type Length, readLength, writtenLength } from './read-cell.ts';
import type { Context } from './sampled.ts';

/** Per line, in their order. */
export function layerDrafts(lines: readonly Given[], context: Context): FromLine[] {
  const { mapping } = context;
  const isAcross = mapping.columns.some(({ to }) => to === 'layer');
  const made = lines.map((given): FromLine => {
    if (isAcross) return across(given, context);
    const draft = ownCells(given, mapping, 'units');
    if (Object.keys(draft.cells).length === 0 && !given.said.has('thickness')) {
      return { aside: 'nothing in the columns that are used' };
    }
    inCore(draft, context);
    return { drafts: [draft] };
  });
  if (!isAcross) {
    const drafts = made.flatMap((line) => ('drafts' in line ? line.drafts : []));
    for (const of of Map.groupBy(drafts, ({ cells }) => cells['hole'] ?? '').values()) endsOf(of, mapping);
  }
  return made;
}

function inCore(draft: Draft, { mapping, holeCalled }: Context): void {
  withFixed(draft, mapping);
  if (draft.cells['hole'] !== undefined) draft.cells['hole'] = holeCalled(draft.cells['hole']);
}

/** A column for each layer: thicknesses from the left down. */
function across(given: Given, context: Context): FromLine {
  const { mapping } = context;
  const drafts: Draft[] = [];
  let top: Length | null = { value: { digits: 0n, scale: 0 }, unit: given.many[0]?.column.unit ?? 'm' };
  for (const said of given.many) {
    const draft = draftOf('units', given);
    const own = ownCells(given, mapping, 'units');
    Object.assign(draft.cells, own.cells);
    draft.faults.push(...own.faults);
    const word = said.column.property ?? said.column.heading;
    draft.cells['sediment'] = wordFor(mapping, 'sediment', word);
    draft.cells['unit'] ??= `L${drafts.length + 1}`;
    inCore(draft, context);
    top = stacked(draft, top, said, mapping);
    drafts.push(draft);
  }
  return drafts.length === 0 ? { aside: 'no layer is stated' } : { drafts };
}

/** Puts a layer below another; the new bottom, or null where it is not known. */
function stacked(draft: Draft, top: Length | null, said: Said, mapping: Mapping): Length | null {
  const read = readLength(said, mapping);
  if (read.fault !== null) draft.faults.push({ column: said.column.heading, fault: read.fault });
  draft.notes.push(...read.notes);
  if (read.isRange)
    draft.notes.push(
      `${said.column.heading}: ${said.text}${said.column.unit === null ? '' : ` ${said.column.unit}`}, its middle is used`,
    );
  if (top === null || read.from === null || read.to === null) {
    if (read.fault === null) draft.faults.push({ column: said.column.heading, fault: unknownEnd(said.text) });
    return null;
  }
  const thickness: Length = { value: middle(read.from.value, read.to.value), unit: read.from.unit };
  const bottom = under(top, thickness);
  const isSurface = top.value.digits === 0n;
  const isAlike = isSurface || top.unit === bottom.unit;
  draft.cells['top'] = writtenLength({
    value: isAlike ? top.value : inMetres(top)!,
    unit: isAlike ? bottom.unit : 'm',
  });
  draft.cells['bottom'] = writtenLength(bottom);
  return bottom;
}

function under(top: Length, thickness: Length): Length {
  if (top.value.digits === 0n || top.unit === thickness.unit) {
    return { value: sum(top.value, thickness.value), unit: thickness.unit };
  }
  return { value: sum(inMetres(top)!, inMetres(thickness)!), unit: 'm' };
}

const unknownEnd = (found: string) => ({
  code: 'layer-without-end',
  found,
  expected: 'top and bottom, a thickness, or a layer below that begins where it ends',
  fix: 'Fill in the bottom, or leave the line out.',
});

/** Ends of the layers of one core, in the order of their lines. */
function endsOf(drafts: readonly Draft[], mapping: Mapping): void {
  const places = drafts.map(({ given }) => placeInCore(given, mapping));
  let reached: Length | null = { value: { digits: 0n, scale: 0 }, unit: 'm' };
  for (const [i, draft] of drafts.entries()) {
    const place = places[i]!;
    draft.faults.push(...place.faults);
    draft.notes.push(...place.notes);
    const thickness = draft.given.said.get('thickness');
    if (place.top === null && thickness !== undefined) {
      reached = stacked(draft, reached, thickness, mapping);
      continue;
    }
    if (place.top !== null) draft.cells['top'] = place.top;
    const isOne = place.isPoint || place.bottom === null;
    const next = places[i + 1]?.top ?? null;
    if (!isOne) draft.cells['bottom'] = place.bottom!;
    else if (next !== null) draft.cells['bottom'] = next;
    else if (place.top !== null && place.faults.length === 0) {
      draft.faults.push({ column: 'bottom', fault: unknownEnd(place.top) });
    }
    const bottom_m: Decimal | null = isOne ? (places[i + 1]?.top_m ?? null) : place.bottom_m;
    reached = bottom_m === null ? null : { value: bottom_m, unit: 'm' };
  }
}
