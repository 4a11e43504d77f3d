/** A fence on paper: oblique parallel projection, seen from the south, north drawn half as long and slanting up. */
import type { Results } from '@stillstand/campaign/results';
import { overlaps, type Rect, roundLength, type Sediment, textWidth } from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import type { SectionContact } from '../section/contacts.tsx';
import { sedimentsOfBodies } from '../section/fill.tsx';
import { depthOf } from '../section/layout.ts';
import type { Paper } from '../section/on-paper.ts';
import { cutLine, cutOutline, pairs } from '../section/on-paper.ts';
import { eachOnce } from '../section/sediment-key.tsx';
import { type FenceLine, type FencePiece, fencePieces, northOf, type Plan, planAt } from './plan.ts';

/** Half length under 45°, as in a cabinet drawing. */
const SLANT = 0.5 * Math.SQRT1_2;

export interface FencePanel {
  bodies: { sediment: Sediment; outline: Paper[] }[];
  contacts: { contact: SectionContact; line: Paper[] }[];
  ground: Paper[];
  zero: Paper[];
}

export interface FenceHole {
  row_id: string;
  name: string;
  x: number;
  ground: number;
  foot: number;
  /** Places of the blocks of its staff, from the ground down. */
  blocks: number[];
  /** Where its name stands, and up to which place a line leads to it; null where none has room. */
  label: (Rect & { lead: boolean }) | null;
}

/** The label of a line over its beginning. */
interface LineName extends Rect {
  words: string;
}

export interface FenceLayout {
  /** The farthest first; each with the holes that are drawn after it. */
  items: ({ kind: 'panel'; panel: FencePanel } | { kind: 'hole'; hole: FenceHole })[];
  holes: FenceHole[];
  /** Those of lines that have a label and room for it. */
  names: LineName[];
  sediments: Sediment[];
  contacts: SectionContact[];
  /** Scale bars: east and north from one corner, and one up from its foot; lengths in metres. */
  bars: {
    at: Paper;
    east: Paper;
    north: Paper;
    foot: Paper;
    up: Paper;
    plan_m: number;
    up_m: number;
  };
  exaggeration: number;
  height: number;
}

/** Heights on paper of what lies between the highest ground and the lowest foot, points. */
const TALL = 120;
/** The plan is no higher than this, points. */
const DEEP = 240;
const HEAD = 24;
const BARS = 62;
const NAME = { weight: 600 } as const;
const ROW = 8.4;

export function fenceLayout(results: Results, lines: readonly FenceLine[], width: number): FenceLayout {
  const slant = betterSlant(lines);
  const pieces = fencePieces(lines);
  const flat = ([east, north]: Plan): Paper => [east + slant * north, SLANT * north];
  const corners = pieces.flatMap(({ line, from_m, to_m }) =>
    [planAt(line, from_m), planAt(line, to_m)].map(flat),
  );
  const [left, right] = [Math.min(...corners.map(([x]) => x)), Math.max(...corners.map(([x]) => x))];
  const [low, high] = [Math.min(...corners.map(([, n]) => n)), Math.max(...corners.map(([, n]) => n))];
  const per_m = Math.min((width - 20) / Math.max(1e-6, right - left), DEEP / Math.max(1e-6, high - low));
  const elevations = lines.flatMap(({ section, holes }) => [
    ...section.ground.map(({ elevation_m }) => elevation_m),
    ...holes.map(({ hole }) => hole.ground_elevation_m!.value),
    ...holes.map(({ hole }) => hole.ground_elevation_m!.value - depthOf(hole)),
  ]);
  const [deepest, highest] = [Math.min(0, ...elevations), Math.max(0, ...elevations)];
  const up = TALL / Math.max(0.1, highest - deepest);
  const start = (width - (right - left) * per_m) / 2;
  const top = HEAD + (high - low) * per_m + TALL;
  const onPaper = (plan: Plan, elevation: number): Paper => {
    const [x, n] = flat(plan);
    return [start + (x - left) * per_m, top - (n - low) * per_m - (elevation - deepest) * up];
  };
  const sedimentIn = sedimentsOfBodies(results.holes);
  const panels = pieces.map((piece) => ({
    north: northOf(piece),
    item: { kind: 'panel' as const, panel: panelOf(sedimentIn, piece, onPaper) },
  }));
  const holes = namedHoles(lines, onPaper, width);
  const names = lineNames(
    lines,
    pieces,
    onPaper,
    holes.flatMap(({ label }) => label ?? []),
  );
  const items = [
    ...panels,
    ...holes.map((hole) => ({
      // After every panel that ends at it.
      north: Math.min(
        ...pieces
          .filter(({ line, from_m, to_m }) =>
            line.holes.some(
              (each) =>
                each.hole.row_id === hole.row_id && (each.along_m === from_m || each.along_m === to_m),
            ),
          )
          .map(northOf),
      ),
      item: { kind: 'hole' as const, hole },
    })),
  ].sort((a, b) => b.north - a.north);
  const plan_m = roundLength((width * 0.18) / per_m);
  const up_m = roundLength(TALL / 3 / up);
  const base = top + BARS - 12;
  const foot: Paper = [2, base];
  // After the words of the bar up; where north slants to the left its bar and words need room there.
  const at: Paper = [
    2 +
      textWidth(upInWords(up_m)) +
      12 +
      (slant < 0 ? SLANT * plan_m * per_m + textWidth(northInWords(plan_m), NAME) + 4 : 0),
    base,
  ];
  return {
    items: items.map(({ item }) => item),
    holes,
    names,
    sediments: eachOnce(panels.flatMap(({ item }) => item.panel.bodies.map(({ sediment }) => sediment))),
    contacts: lines.flatMap(({ section }) => section.contacts),
    bars: {
      at,
      east: [at[0] + plan_m * per_m, at[1]],
      north: [at[0] + slant * plan_m * per_m, at[1] - SLANT * plan_m * per_m],
      foot,
      up: [foot[0], base - up_m * up],
      plan_m,
      up_m,
    },
    exaggeration: up / per_m,
    height: top + BARS,
  };
}

/** With the bar up, and that to the north. */
export const upInWords = (metres: number): string => `${printed(metres, metres < 1 ? 1 : 0)} m up`;
export const northInWords = (metres: number): string => `N ${printed(metres, 0)} m`;

/** North slants to the right or to the left: whichever shows the line that is seen most edgewise wider. */
function betterSlant(lines: readonly FenceLine[]): number {
  const least = (slant: number): number =>
    Math.min(
      ...lines.map(({ holes }) => {
        const [a, b] = [holes[0]!.plan, holes.at(-1)!.plan];
        return Math.abs(b[0] - a[0] + slant * (b[1] - a[1]));
      }),
    );
  return least(SLANT) >= least(-SLANT) ? SLANT : -SLANT;
}

function panelOf(
  sedimentIn: ReturnType<typeof sedimentsOfBodies>,
  { line, from_m, to_m }: FencePiece,
  onPaper: (plan: Plan, elevation: number) => Paper,
): FencePanel {
  const { section } = line;
  const at = ([along, elevation]: readonly [number, number]): Paper =>
    onPaper(planAt(line, along), elevation);
  const span = { from_m, to_m };
  return {
    bodies: section.bodies.flatMap((body) => {
      const outline = cutOutline(pairs(body.outline), span).map(at);
      return outline.length < 3 ? [] : [{ sediment: sedimentIn(body), outline }];
    }),
    contacts: section.contacts.flatMap((contact) => {
      const drawn = cutLine(pairs(contact.line), span).map(at);
      return drawn.length < 2 ? [] : [{ contact, line: drawn }];
    }),
    ground: cutLine(pairs(section.ground), span).map(at),
    zero: [at([from_m, 0]), at([to_m, 0])],
  };
}

/** Each hole once, with its staff by metre and its name over it, or higher on a line where others stand. */
function namedHoles(
  lines: readonly FenceLine[],
  onPaper: (plan: Plan, elevation: number) => Paper,
  width: number,
): FenceHole[] {
  const once = new Map(lines.flatMap(({ holes }) => holes.map((each) => [each.hole.hole, each] as const)));
  const taken: Rect[] = [];
  return [...once.values()]
    .sort((a, b) => a.plan[1] - b.plan[1])
    .map(({ hole, plan }) => {
      const ground_m = hole.ground_elevation_m!.value;
      const depth = depthOf(hole);
      const [x, ground] = onPaper(plan, ground_m);
      const foot = onPaper(plan, ground_m - depth)[1];
      const half = textWidth(hole.hole, NAME) / 2;
      const x1 = Math.max(0, Math.min(width - 2 * half, x - half));
      const label = [0, 1, 2, 3, 4, 5, 6]
        .map((rows) => ({
          x1: x1 - 1,
          x2: x1 + 2 * half + 1,
          y1: ground - 3 - (rows + 1) * ROW,
          y2: ground - 3 - rows * ROW,
          lead: rows > 0,
        }))
        .find((box) => box.y1 >= 0 && !taken.some((other) => overlaps(box, other)));
      if (label !== undefined) taken.push(label);
      return {
        row_id: hole.row_id,
        name: hole.hole,
        x,
        ground,
        foot,
        blocks: Array.from(
          { length: Math.ceil(depth) + 1 },
          (_, m) => onPaper(plan, ground_m - Math.min(m, depth))[1],
        ),
        label: label ?? null,
      };
    });
}

/** At the end of each line where it begins, over the ground. */
function lineNames(
  lines: readonly FenceLine[],
  pieces: readonly FencePiece[],
  onPaper: (plan: Plan, elevation: number) => Paper,
  taken: readonly Rect[],
): LineName[] {
  const placed: LineName[] = [];
  for (const line of lines) {
    const words = line.section.line;
    if (words === null) continue;
    const from = Math.min(...pieces.filter((piece) => piece.line === line).map(({ from_m }) => from_m));
    const first = line.holes[0]!;
    const [x, y] = onPaper(planAt(line, from), first.hole.ground_elevation_m!.value);
    const half = textWidth(words, NAME) / 2;
    const left = Math.max(0, x - half);
    const name = [0, 1, 2, 3]
      .map((rows) => ({
        words,
        x1: left,
        x2: left + 2 * half,
        y1: y - 4 - (rows + 1) * ROW,
        y2: y - 4 - rows * ROW,
      }))
      .find((box) => box.y1 >= 0 && ![...taken, ...placed].some((other) => overlaps(box, other)));
    if (name !== undefined) placed.push(name);
  }
  return placed;
}
