/** Units filled in between the holes of a line, along the contacts a person has correlated. */
import { bodiesOf } from './bodies.ts';
import { contactsOf } from './contacts.ts';
import { groundLine, heightAt, held } from './ground.ts';
import { impliedTies } from './implied.ts';
import { chord, linesOf } from './lines.ts';
import { fingerTips, type Piece, piecesOf } from './pieces.ts';
import { endedUnits, saidBetween } from './said.ts';
import type {
  ContactLine,
  FilledSection,
  Point,
  ProfilePoint,
  SectionBoundary,
  SectionColumn,
  SectionFinding,
  SectionTie,
} from './shape.ts';
import { shapesOf } from './shapes-between.ts';
import { slotsOf } from './slots.ts';
import { type Stack, stackOf } from './stack.ts';
import { STUB, type Stub, stubOf } from './stubs.ts';
import { panelTies } from './ties.ts';

/** Nearer than this two holes stand at one place: nothing can be drawn between them, m. */
const ONE_PLACE_M = 0.01;
/** How far a hole without a neighbour is drawn to each side, m. */
const ALONE_M = 5;

/**
 * Bodies of sediment and contacts between the holes of a line (docs/methods/section.md). Ground and ties divide each panel
 * between two neighbouring holes into bands, filled without gap or overlap down to the lowest tie; below it and beyond the
 * last hole units are drawn a short way and queried. At a hole the fill is its column. Never throws for finite numbers.
 * @param columns in any order; m along the line
 * @param ties accepted correlations; of two that cross the first stays. Of holes that are not neighbours they count where
 *   they tie neighbours through a third hole
 * @param boundaries how contacts run between neighbours
 * @param profile of the ground; empty: straight from hole to hole
 */
export function fillUnits(
  columns: readonly SectionColumn[],
  ties: readonly SectionTie[],
  boundaries: readonly SectionBoundary[],
  profile: readonly ProfilePoint[],
): FilledSection {
  const stacks = columns.map(stackOf).sort((a, b) => a.along_m - b.along_m);
  const ground = groundLine(stacks, profile);
  const problems: SectionFinding[] = [];
  const pieces: Piece[] = [];
  const contacts: ContactLine[] = [];
  const queries: Point[] = [];
  const used = new Set<string>();
  const tied = [...ties, ...impliedTies(stacks, ties)];

  const take = ({ hole }: Stack, stub: Stub): void => {
    pieces.push(...stub.pieces);
    queries.push(...stub.queries);
    for (const { layer, line, ending, said } of stub.bases)
      contacts.push({
        hole_a: hole,
        unit_a: layer.id!,
        hole_b: null,
        unit_b: null,
        horizon: null,
        confidence: null,
        ending,
        isErosional: layer.isErosional,
        isLateral: false,
        line,
        tie: null,
        boundary: said?.row_id ?? null,
      });
  };
  const end = (stack: Stack, way_m: number): void => {
    const bends = ground.map(([x]) => (x - stack.along_m) / way_m);
    const { layers, along_m: from_m } = stack;
    const roof = (): number => stack.ground_m;
    const top = (t: number): number => held(ground, from_m + t * way_m);
    take(stack, stubOf({ layers, from_m, way_m, roof, top, ground, said: [], furthest: STUB, bends }));
  };

  stacks.slice(1).forEach((right, i) => {
    const left = stacks[i]!;
    const way_m = right.along_m - left.along_m;
    if (way_m < ONE_PLACE_M) {
      problems.push({ kind: 'one_place', hole_a: left.hole, hole_b: right.hole });
      return;
    }
    const between = panelTies(left, right, tied);
    const slots = slotsOf(left, right, between.ties, {
      a: endedUnits(left, right, boundaries),
      b: endedUnits(right, left, boundaries),
    });
    const said = saidBetween(left, right, slots, boundaries);
    problems.push(...between.problems, ...said.problems);
    for (const row of said.used) used.add(row);
    const shapes = shapesOf(left, right, slots, said.slots);
    const also = fingerTips(slots, shapes);
    const lines = linesOf({ left, right, slots, shapes, said: said.slots, also, ground });
    said.slots.forEach((row, k) => {
      const drawn_m = lines.lifted_m[k + 1];
      if (row?.lift_m === null || row?.lift_m === undefined || drawn_m === null || drawn_m === undefined)
        return;
      if (Math.abs(drawn_m - row.lift_m) > LIFT_M)
        problems.push({ kind: 'lift_clamped', row_id: row.row_id, asked_m: row.lift_m, drawn_m });
    });
    const filled = piecesOf(left, right, slots, shapes, lines);
    pieces.push(...filled.pieces);
    const made = contactsOf(left, right, slots, shapes, said.slots, lines, filled.meetings);
    contacts.push(...made.contacts);
    queries.push(...made.queries);

    const roofLine = lines.y.at(-1)!.map((e, at): Point => [lines.t[at]!, e]);
    for (const [stack, side] of [
      [left, 'a'],
      [right, 'b'],
    ] as const) {
      const isLeft = side === 'a';
      const other = isLeft ? right : left;
      const under = (t: number): number => held(roofLine, isLeft ? t : 1 - t);
      const first = Math.max(-1, ...slots.flatMap((slot) => slot[side])) + 1;
      take(
        stack,
        stubOf({
          layers: stack.layers.slice(first),
          from_m: stack.along_m,
          way_m: isLeft ? way_m : -way_m,
          // Under the ground alone they lie straight, under a tie as it does.
          roof: (t) => (slots.length === 0 ? chord(stack.ground_m, other.ground_m, t) : under(t)),
          top: under,
          ground,
          said: stack.layers
            .slice(first)
            .map((_, j) => said[isLeft ? 'left' : 'right'].get(first + j) ?? null),
          // Units said to end on both sides share the way.
          furthest: (isLeft ? said.right : said.left).size > 0 ? 0.5 : 1 - STUB,
          bends: isLeft ? lines.t : lines.t.map((t) => 1 - t),
        }),
      );
    }
  });

  const [first, last] = [stacks[0], stacks.at(-1)];
  if (first !== undefined && last !== undefined) {
    const wayOf = (a: Stack | undefined, b: Stack | undefined): number =>
      a === undefined || b === undefined || b.along_m - a.along_m < ONE_PLACE_M
        ? ALONE_M / STUB
        : b.along_m - a.along_m;
    end(first, -wayOf(first, stacks[1]));
    end(last, wayOf(stacks.at(-2), last));
  }
  const holeOf = new Map(
    stacks.flatMap(({ hole, layers }) =>
      layers.flatMap(({ id }) => (id === null ? [] : [[id, hole] as const])),
    ),
  );
  problems.push(...unusedRows(stacks, boundaries, used));
  return {
    bodies: bodiesOf(pieces, holeOf),
    contacts,
    ground: drawnGround(ground, pieces),
    queries,
    problems,
  };
}

/** A lift drawn within this of what was asked for is as asked, m. */
const LIFT_M = 0.005;

function unusedRows(
  stacks: readonly Stack[],
  rows: readonly SectionBoundary[],
  used: ReadonlySet<string>,
): SectionFinding[] {
  const at = (hole: string): number => stacks.findIndex((stack) => stack.hole === hole);
  return rows.flatMap(({ row_id, hole_a, hole_b }): SectionFinding[] => {
    if (used.has(row_id)) return [];
    for (const hole of [hole_a, hole_b])
      if (hole !== null && at(hole) === -1) return [{ kind: 'boundary_off_line', row_id, hole }];
    if (hole_b !== null && Math.abs(at(hole_a) - at(hole_b)) !== 1)
      return [{ kind: 'boundary_not_neighbours', row_id }];
    return [{ kind: 'boundary_without_contact', row_id }];
  });
}

/** The ground as far beyond the last holes as units are drawn there: level where no profile goes on. */
function drawnGround(ground: readonly Point[], pieces: readonly Piece[]): Point[] {
  const along = pieces.flatMap(({ upper }) => upper.map(([x]) => x));
  const ends = along.length === 0 ? [] : [Math.min(...along), Math.max(...along)];
  const beyond = ends.filter((x) => heightAt(ground, x) === null).map((x): Point => [x, held(ground, x)]);
  return [...ground, ...beyond].sort(([a], [b]) => a - b);
}
