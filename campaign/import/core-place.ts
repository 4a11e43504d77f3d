/** Where in a core a line lies: top and bottom as they would be typed. */
import type { Fault } from '@stillstand/campaign/tables';
import { compare, type Decimal, half, negated, sum } from './decimal.ts';
import type { Given, Said } from './given.ts';
import type { Mapping } from './mapping.ts';
import { inMetres, type Length, type ReadLength, readLength, writtenLength } from './read-cell.ts';

export interface PlaceInCore {
  top: string | null;
  bottom: string | null;
  /** Metres, exactly; null where there is none. */
  top_m: Decimal | null;
  bottom_m: Decimal | null;
  /** Only one depth is stated: the middle of what was taken. */
  isPoint: boolean;
  notes: string[];
  faults: { column: string; fault: Fault }[];
}

/** Depths of a line by its columns top, bottom, depth and thickness. */
export function placeInCore(given: Given, mapping: Mapping): PlaceInCore {
  const place: PlaceInCore = {
    top: null,
    bottom: null,
    top_m: null,
    bottom_m: null,
    isPoint: false,
    notes: [],
    faults: [],
  };
  const read = (name: string): ReadLength | null => {
    const said = given.said.get(name);
    if (said === undefined) return null;
    const length = readLength(said, mapping);
    place.notes.push(...length.notes);
    if (length.fault !== null) place.faults.push({ column: said.column.heading, fault: length.fault });
    return length.from === null ? null : length;
  };
  const put = (end: 'top' | 'bottom', length: Length, typed: string | null = null): void => {
    place[end] = typed ?? writtenLength(length);
    place[`${end}_m`] = inMetres(length);
  };
  const [top, bottom, depth, thickness] = ['top', 'bottom', 'depth', 'thickness'].map(read);
  if (top !== null && top !== undefined) put('top', top.from!, top.typed);
  if (bottom !== null && bottom !== undefined) put('bottom', bottom.to!, bottom.typed);
  if (place.top === null && place.bottom === null && depth !== null && depth !== undefined) {
    if (depth.isRange) {
      const [from, to] = inOrder(depth.from!, depth.to!);
      put('top', from);
      put('bottom', to);
    } else if (thickness !== null && thickness !== undefined) {
      around(depth.from!, thickness.from!, put);
    } else {
      put('top', depth.from!, depth.typed);
      put('bottom', depth.from!, depth.typed);
      place.isPoint = true;
    }
  } else if (place.top !== null && place.bottom === null) {
    if (thickness !== null && thickness !== undefined) below(top!.from!, thickness.from!, put);
    else if (top!.isRange) put('bottom', top!.to!);
  }
  return place;
}

type Put = (end: 'top' | 'bottom', length: Length) => void;

function around(depth: Length, thickness: Length, put: Put): void {
  const [a, b] = [inMetres(depth), inMetres(thickness)];
  if (a === null || b === null) return;
  const same = depth.unit === thickness.unit;
  const [middle, reach, unit] = same ? [depth.value, half(thickness.value), depth.unit] : [a, half(b), 'm'];
  put('top', { value: sum(middle, negated(reach)), unit });
  put('bottom', { value: sum(middle, reach), unit });
}

function below(top: Length, thickness: Length, put: Put): void {
  const [a, b] = [inMetres(top), inMetres(thickness)];
  if (a === null || b === null) return;
  const same = top.unit === thickness.unit;
  put('bottom', { value: same ? sum(top.value, thickness.value) : sum(a, b), unit: same ? top.unit : 'm' });
}

function inOrder(a: Length, b: Length): [Length, Length] {
  const [x, y] = [inMetres(a), inMetres(b)];
  return x !== null && y !== null && compare(x, y) > 0 ? [b, a] : [a, b];
}

/** A text of the line, by what it is for. */
export const textOf = ({ said }: { said: ReadonlyMap<string, Said> }, name: string): string =>
  said.get(name)?.text ?? '';
