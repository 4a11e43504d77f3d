/**
 * The scale of a picture while it is being set, and as the table of photographs has it: two marks with their depths, and
 * how wide the core is and how far from the line through the marks. Lengths stay as they are typed.
 */
import { type Column, type LengthOptions, readCell, schemas } from '@stillstand/campaign/tables';
import { type PicturePoint, type PictureSize, type Strip, stripPlace } from '@stillstand/output/photographs';
import { readLength, writtenLength } from '../length.ts';

export interface Mark {
  /** Null until it is placed. Whole pixels of the upright picture in its full resolution. */
  at: PicturePoint | null;
  /** As typed, along the core. */
  depth: string;
}

export interface Marking {
  marks: readonly [Mark, Mark];
  width: string;
  /** Empty: the marks are on the middle of the core. */
  offset: string;
}

export type MarkIndex = 0 | 1;
type Cells = Readonly<Record<string, string>>;

export function markingOf(cells: Cells): Marking {
  const mark = (number: 1 | 2): Mark => {
    const x_px = pixels(cells[`mark_${number}_x_px`]);
    const y_px = pixels(cells[`mark_${number}_y_px`]);
    return {
      at: x_px === null || y_px === null ? null : { x_px, y_px },
      depth: cells[`mark_${number}`]?.trim() ?? '',
    };
  };
  return {
    marks: [mark(1), mark(2)],
    width: cells['strip_width']?.trim() ?? '',
    offset: cells['strip_offset']?.trim() ?? '',
  };
}

function pixels(cell: string | undefined): number | null {
  const value = cell === undefined || cell.trim() === '' ? Number.NaN : Number(cell.replace(',', '.'));
  return Number.isFinite(value) ? value : null;
}

/** The cells of the row; `null` takes the scale away. */
export function markingCells(marking: Marking | null): Record<string, string> {
  const [one, two] = marking?.marks ?? [];
  const px = (value: number | undefined): string => (value === undefined ? '' : String(Math.round(value)));
  return {
    mark_1: one?.depth.trim() ?? '',
    mark_1_x_px: px(one?.at?.x_px),
    mark_1_y_px: px(one?.at?.y_px),
    mark_2: two?.depth.trim() ?? '',
    mark_2_x_px: px(two?.at?.x_px),
    mark_2_y_px: px(two?.at?.y_px),
    strip_width: marking?.width.trim() ?? '',
    strip_offset: marking?.offset.trim() ?? '',
  };
}

export const hasMarking = (cells: Cells): boolean =>
  Object.keys(markingCells(null)).some((column) => (cells[column] ?? '').trim() !== '');

export const withMark = (marking: Marking, index: MarkIndex, change: Partial<Mark>): Marking => ({
  ...marking,
  marks: [
    index === 0 ? { ...marking.marks[0], ...change } : marking.marks[0],
    index === 1 ? { ...marking.marks[1], ...change } : marking.marks[1],
  ],
});

/** The middle of the core from the line through the marks, metres; null where it cannot be read. */
const offsetOf = ({ offset }: Marking, options: LengthOptions): number | null =>
  offset.trim() === '' ? 0 : (readLength(offset, options)?.m ?? null);

/**
 * What the marks cut out between two lengths along the core, metres; null while a mark, a depth or the width is wanting
 * or wrong, or both marks are at one place or of one depth.
 */
export function stripOf(
  marking: Marking,
  { top_m, bottom_m }: { top_m: number; bottom_m: number },
  options: LengthOptions,
): Strip | null {
  const [one, two] = marking.marks;
  const d1 = readLength(one.depth, options);
  const d2 = readLength(two.depth, options);
  const width = readLength(marking.width, options);
  const offset_m = offsetOf(marking, options);
  if (one.at === null || two.at === null || d1 === null || d2 === null || width === null) return null;
  if (offset_m === null || Object.values(faultsOf(marking, options)).some((fault) => fault !== null)) {
    return null;
  }
  return {
    top_m,
    bottom_m,
    mark_1: { ...one.at, at_m: d1.m },
    mark_2: { ...two.at, at_m: d2.m },
    width_m: width.m,
    offset_m,
  };
}

export interface MarkingFaults {
  mark_1: string | null;
  mark_2: string | null;
  strip_width: string | null;
  strip_offset: string | null;
  /** Of where the marks are. */
  places: string | null;
}

/** What is wrong with what was typed or placed, and what to do; what is still empty is not wrong. */
export function faultsOf(
  { marks: [one, two], width, offset }: Marking,
  options: LengthOptions,
): MarkingFaults {
  const d1 = readLength(one.depth, options);
  const d2 = readLength(two.depth, options);
  const isOneDepth = d1 !== null && d2 !== null && d1.m === d2.m;
  const isOnePlace =
    one.at !== null && two.at !== null && one.at.x_px === two.at.x_px && one.at.y_px === two.at.y_px;
  return {
    mark_1: cellFault('mark_1', one.depth, options),
    mark_2:
      cellFault('mark_2', two.depth, options) ??
      (isOneDepth ? 'Mark 1 has the same depth; expected two depths. Correct one of them.' : null),
    strip_width: cellFault('strip_width', width, options),
    strip_offset: cellFault('strip_offset', offset, options),
    places: isOnePlace ? 'Both marks are at one place; expected two, far apart. Move one of them.' : null,
  };
}

function cellFault(name: string, typed: string, options: LengthOptions): string | null {
  const columns: Readonly<Record<string, Column>> = schemas.photos.columns;
  if (typed.trim() === '') return null;
  const { fault } = readCell(name, columns[name]!, typed.trim(), options);
  return fault === undefined ? null : `Found “${fault.found}”; expected ${fault.expected}. ${fault.fix}`;
}

/** Coarser than this is a depth in another unit, rather than a picture: px per metre (common practice, no source). */
const COARSE = 100;

/** What may be right and is worth a second look: a mark below the core or off the picture, and a scale no picture has. */
export function doubtsOf(
  { marks }: Marking,
  strip: Strip | null,
  core: { name: string; length_m: number },
  size: PictureSize,
  options: LengthOptions,
): string[] {
  const { px_per_m = COARSE } = (strip && stripPlace(strip.mark_1, strip.mark_2)) ?? {};
  const ofMarks = marks.flatMap(({ at, depth }, i) => {
    const read = readLength(depth, options);
    const name = `Mark ${i + 1}`;
    const isOff =
      at !== null && (at.x_px < 0 || at.y_px < 0 || at.x_px > size.width_px || at.y_px > size.height_px);
    return [
      ...(read !== null && read.m > core.length_m + 0.0005
        ? [
            `${name}, at ${depth.trim()}, is below the end of ${core.name} (${writtenLength(core.length_m, 'm')}). Correct it, unless it is on a tape that is longer than the core.`,
          ]
        : []),
      ...(isOff ? [`${name} is off the picture. Move it, or remove the scale.`] : []),
    ];
  });
  return px_per_m < COARSE
    ? [`A metre is only ${Math.round(px_per_m)} px long. Check the units of the two depths.`, ...ofMarks]
    : ofMarks;
}

/** What to do next; null when the scale is complete. */
export function nextStep(marking: Marking, options: LengthOptions): string | null {
  const [one, two] = marking.marks;
  const isDone = (mark: Mark): boolean => mark.at !== null && mark.depth.trim() !== '';
  if (one.at === null) return 'Tap the first mark: a place whose depth you know, such as a line of the tape.';
  if (two.at === null && !isDone(one)) return 'Type the depth at mark 1, then tap the second mark.';
  if (two.at === null) return 'Tap the second mark, as far from the first as you can.';
  if (!isDone(one)) return 'Type the depth at mark 1.';
  if (!isDone(two)) return 'Type the depth at mark 2.';
  if (marking.width.trim() === '') return 'Type the width of the core.';
  const isWrong = Object.values(faultsOf(marking, options)).some((fault) => fault !== null);
  return isWrong ? 'Correct the entry that has a message.' : null;
}
