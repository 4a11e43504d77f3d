/**
 * Sediment patterns as glyphs in ink over a quiet tint. Every glyph is drawn where a fixed lattice, shaken by a hash
 * of its own indices, puts it: the same unit always looks the same, and nothing repeats to the eye as a tile does.
 * Past 250 lines because it is one alphabet.
 */
import { useInk } from './ink.ts';
import { boxAround, isWithin } from './outline.ts';
import { box, dot, horizontal, move, polygon, r2 } from './path.ts';
import type { Rect } from './place.ts';
import type { Glyphs, Sediment } from './sediment-table.ts';

/** A number in [0, 1) from three whole numbers (integer mixing in the manner of Murmur3's finaliser). */
function shake(i: number, j: number, salt: number): number {
  let h = Math.imul(i, 0x9e3779b1) ^ Math.imul(j, 0x85ebca77) ^ Math.imul(salt + 1, 0xc2b2ae3d);
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296;
}

/** Line weight a glyph is drawn with; `shape` glyphs are closed and filled with the tint. */
interface Strokes {
  d: string;
  weight: number;
  /** Paper or tint inside closed shapes. */
  closed: boolean;
}

type Draw = (r: Rect, seed: number) => Strokes;

/** Calls `at` for every place of a shaken, staggered lattice that may touch the rectangle. */
function lattice(
  r: Rect,
  seed: number,
  cell: { x: number; y: number; shake: number },
  at: (x: number, y: number, one: number, two: number) => string,
): string {
  let d = '';
  const rows = Math.ceil((r.y2 - r.y1) / cell.y) + 1;
  const columns = Math.ceil((r.x2 - r.x1) / cell.x) + 1;
  for (let j = 0; j < rows; j++) {
    for (let i = -1; i < columns; i++) {
      const a = shake(i, j, seed);
      const b = shake(i, j, seed + 101);
      const x = r.x1 + (i + 0.5 + (j % 2) * 0.5 + (a - 0.5) * cell.shake) * cell.x;
      const y = r.y1 + (j + 0.5 + (b - 0.5) * cell.shake) * cell.y;
      d += at(x, y, shake(i, j, seed + 202), shake(i, j, seed + 303));
    }
  }
  return d;
}

/** Calls `at` for every line of a ruling, centred in the rectangle so that thin units still get one. */
function ruling(r: Rect, apart: number, at: (y: number, row: number) => string): string {
  const height = r.y2 - r.y1;
  const rows = Math.max(1, Math.floor(height / apart));
  const first = r.y1 + (height - (rows - 1) * apart) / 2;
  let d = '';
  for (let j = 0; j < rows; j++) d += at(first + j * apart, j);
  return d;
}

const inside = (x: number, y: number, r: Rect, margin: number): boolean =>
  x > r.x1 + margin && x < r.x2 - margin && y > r.y1 + margin && y < r.y2 - margin;

const dots =
  (x: number, y: number, weight: number): Draw =>
  (r, seed) => ({
    d: lattice(r, seed, { x, y, shake: 0.75 }, (px, py) => (inside(px, py, r, 0.5) ? dot(px, py) : '')),
    weight,
    closed: false,
  });

/** A line of dashes cut at the rectangle's sides. `words` repeats along the line: dash lengths, 0 for a dot. */
function dashes(r: Rect, y: number, words: readonly number[], gap: number, shift: number): string {
  let d = '';
  let x = r.x1 - shift;
  for (let i = 0; x < r.x2; i++) {
    const length = words[i % words.length] ?? 0;
    if (length === 0) {
      if (x > r.x1 + 0.4 && x < r.x2 - 0.4) d += dot(x, y);
    } else {
      const from = Math.max(x, r.x1 + 0.4);
      const to = Math.min(x + length, r.x2 - 0.4);
      if (to - from > 0.6) d += horizontal(from, to, y);
    }
    x += length + gap;
  }
  return d;
}

const ruled =
  (apart: number, rows: readonly { words: readonly number[]; gap: number }[]): Draw =>
  (r, seed) => ({
    d: ruling(r, apart, (y, row) => {
      const { words, gap } = rows[row % rows.length]!;
      const period = words.reduce((sum, w) => sum + w + gap, 0);
      const shift = (Math.floor(row / rows.length) % 2) * (period / 2) + shake(row, 0, seed) * period * 0.2;
      return dashes(r, y, words, gap, shift);
    }),
    weight: 0.5,
    closed: false,
  });

/** An oval stone, slightly turned. */
function stone(x: number, y: number, long: number, short: number, turn: number): string {
  const dx = long * (1 - turn * turn * 0.5);
  const dy = long * turn;
  const degrees = r2(turn * 57.3);
  return `${move(x - dx, y - dy)}A${r2(long)} ${r2(short)} ${degrees} 1 0 ${r2(x + dx)} ${r2(y + dy)}A${r2(long)} ${r2(short)} ${degrees} 1 0 ${r2(x - dx)} ${r2(y - dy)}Z`;
}

const stones =
  (cellX: number, cellY: number, size: number): Draw =>
  (r, seed) => ({
    d: lattice(r, seed, { x: cellX, y: cellY, shake: 0.42 }, (x, y, one, two) =>
      stone(x, y, size * (0.62 + 0.5 * one), size * (0.42 + 0.26 * two), (two - 0.5) * 0.9),
    ),
    weight: 0.45,
    closed: true,
  });

const angular: Draw = (r, seed) => ({
  d: lattice(r, seed, { x: 9.5, y: 7.5, shake: 0.55 }, (x, y, one, two) => {
    const size = 1.1 + 1.2 * one;
    const turn = two * 2 - 1;
    const skew = (one - 0.5) * 1.4;
    return polygon([
      [x - size, y + size * (0.55 + 0.3 * turn)],
      [x + size * (0.9 - 0.2 * turn), y + size * (0.5 - 0.4 * turn)],
      [x + skew, y - size * 0.9],
    ]);
  }),
  weight: 0.45,
  closed: true,
});

/** Half a bivalve lying on its back or its face. */
const shells =
  (cellX: number, cellY: number): Draw =>
  (r, seed) => ({
    d: lattice(r, seed, { x: cellX, y: cellY, shake: 0.6 }, (x, y, one, two) => {
      const w = 1.9 + one * 0.9;
      const up = two < 0.5 ? -1 : 1;
      if (!inside(x, y, r, 0.3)) return '';
      return `${move(x - w, y - up * 0.6)}C${r2(x - w * 0.8)} ${r2(y + up * 2.1)} ${r2(x + w * 0.8)} ${r2(y + up * 2.1)} ${r2(x + w)} ${r2(y - up * 0.6)}`;
    }),
    weight: 0.6,
    closed: false,
  });

/** A tuft of five blades on a short line. */
const tuft = (x: number, y: number, s: number): string =>
  `${horizontal(x - 2.1 * s, x + 2.1 * s, y)}${move(x - 1.5 * s, y)}l${r2(-0.5 * s)} ${r2(-1.2 * s)}${move(x - 0.7 * s, y)}l${r2(-0.25 * s)} ${r2(-1.7 * s)}${move(x, y)}v${r2(-1.9 * s)}${move(x + 0.7 * s, y)}l${r2(0.25 * s)} ${r2(-1.7 * s)}${move(x + 1.5 * s, y)}l${r2(0.5 * s)} ${r2(-1.2 * s)}`;

const tufts: Draw = (r, seed) => ({
  d: ruling(r, 4.4, (y, row) => {
    let d = '';
    const shift = (row % 2) * 3.3 + shake(row, 7, seed) * 1.2;
    for (let x = r.x1 + 0.4 + shift; x < r.x2 + 2; x += 6.6) d += tuft(x + 1.4, y + 1, 1);
    return d;
  }),
  weight: 0.45,
  closed: false,
});

const DRAW: Record<Glyphs, Draw> = {
  fine_dots: dots(3.1, 2.6, 0.62),
  dots: dots(4.1, 3.4, 0.85),
  coarse_dots: dots(5, 4.1, 1.2),
  sparse_dots: dots(7.5, 6, 0.8),
  bedded_dots: (r, seed) => ({
    d: ruling(r, 4.2, (y, row) => {
      let d = '';
      const shift = shake(row, 3, seed) * 2;
      for (let x = r.x1 + 0.6 + shift, i = 0; x < r.x2 - 0.4; x += 2, i++) {
        const wander = (shake(i, row, seed) - 0.5) * 0.5;
        d += dot(x, Math.min(r.y2 - 0.4, Math.max(r.y1 + 0.4, y + wander)));
      }
      return d;
    }),
    weight: 0.85,
    closed: false,
  }),
  crossbeds: (r, seed) => ({
    d: ruling(r, 7, (y, row) => {
      let d = '';
      for (let x = r.x1 + shake(row, 5, seed) * 3; x < r.x2; x += 6.5) {
        for (let i = 0; i < 4; i++) d += dot(x + i * 1.5, y - 2.4 + i * i * 0.53);
      }
      return d;
    }),
    weight: 0.8,
    closed: false,
  }),
  stones: stones(8.4, 6.2, 3.3),
  sparse_stones: (r, seed) => ({
    d: lattice(r, seed, { x: 15, y: 11, shake: 0.7 }, (x, y, one, two) =>
      inside(x, y, r, 1.6) ? stone(x, y, 1.3 + one, 0.9 + 0.5 * two, (two - 0.5) * 0.8) : '',
    ),
    weight: 0.45,
    closed: true,
  }),
  silt_lines: ruled(3.9, [{ words: [5, 0, 0], gap: 1.7 }]),
  sandy_silt_lines: ruled(3.4, [
    { words: [5, 0, 0], gap: 1.7 },
    { words: [0], gap: 2 },
  ]),
  clay_lines: ruled(3.9, [{ words: [5.2], gap: 2.6 }]),
  silty_clay_lines: ruled(3.9, [
    { words: [5.2], gap: 2.6 },
    { words: [5, 0], gap: 1.8 },
  ]),
  tufts,
  sparse_tufts: (r, seed) => ({
    d: lattice(r, seed, { x: 17, y: 11, shake: 0.6 }, (x, y) =>
      inside(x, y - 1, r, 1.6) ? tuft(x, y, 0.9) : '',
    ),
    weight: 0.45,
    closed: false,
  }),
  roots: (r, seed) => ({
    d: lattice(r, seed, { x: 15, y: 12, shake: 0.7 }, (x, y, one) => {
      const s = 0.8 + one * 0.4;
      return `${move(x, y - 3.4 * s)}q${r2(1.5 * s)} ${r2(1.4 * s)} ${r2(0.2 * s)} ${r2(2.6 * s)}t${r2(0.4 * s)} ${r2(3.4 * s)}${move(x + 0.2 * s, y - 0.8 * s)}l${r2(-1.6 * s)} ${r2(1.3 * s)}${move(x + 0.5 * s, y + 0.9 * s)}l${r2(1.5 * s)} ${r2(1.2 * s)}`;
    }),
    weight: 0.55,
    closed: false,
  }),
  angular_stones: angular,
  shells: shells(11, 8.5),
  bricks: (r) => ({
    d: ruling(r, 5, (y, row) => {
      let d = horizontal(r.x1, r.x2, y + 2.5);
      for (let x = r.x1 + 4 + (row % 2) * 4; x < r.x2; x += 8) d += `${move(x, y - 2.5)}v5`;
      return d;
    }),
    weight: 0.4,
    closed: false,
  }),
  strokes: (r, seed) => ({
    d: lattice(r, seed, { x: 6.5, y: 5, shake: 0.15 }, (x, y) => `${move(x - 1.2, y + 1.2)}l2.4-2.4`),
    weight: 0.5,
    closed: false,
  }),
  queries: (r, seed) => ({
    d: lattice(r, seed, { x: 16, y: 11, shake: 0.3 }, (x, y) =>
      inside(x, y, r, 2.4)
        ? `${move(x - 1.1, y - 1.2)}q.1-1.2 1.2-1.2t1.1 1.1q0 .7-1.1 1.4v.7${dot(x, y + 2.1)}`
        : '',
    ),
    weight: 0.5,
    closed: false,
  }),
};

/** The sediment in a rectangle: tint, then its glyphs, cut at the edges. `id` must be unique in the drawing. */
export function Pattern({ at, ...rest }: { sediment: Sediment; at: Rect; id: string; seed: number }) {
  return (
    <Filled
      {...rest}
      at={at}
      d={box(at.x1, at.y1, at.x2, at.y2)}
      isBare={at.y2 - at.y1 < 0.8}
      keep={(strokes) => strokes}
    />
  );
}

/** The sediment in a closed outline, points; the lattice is that of its box, and glyphs that lie outside are left out. */
export function PatternWithin({
  outline,
  ...rest
}: {
  sediment: Sediment;
  outline: readonly (readonly [number, number])[];
  id: string;
  seed: number;
}) {
  const at = boxAround(outline);
  return (
    <Filled
      {...rest}
      at={at}
      d={polygon(outline)}
      isBare={at.y2 - at.y1 < 0.8 || at.x2 - at.x1 < 0.8}
      keep={(strokes) => strokesWithin(strokes, outline)}
    />
  );
}

function Filled({
  sediment,
  at,
  d,
  id,
  seed,
  isBare,
  keep,
}: {
  sediment: Sediment;
  at: Rect;
  d: string;
  id: string;
  seed: number;
  /** Too thin for glyphs. */
  isBare: boolean;
  keep: (strokes: string) => string;
}) {
  const ink = useInk();
  const tint = ink.tints[sediment.tint];
  return (
    <g>
      <path d={d} fill={tint} />
      {isBare ? null : (
        <>
          <clipPath id={id}>
            <path d={d} />
          </clipPath>
          <g
            clipPath={`url(#${id})`}
            stroke={ink.pattern}
            strokeLinecap="round"
            strokeLinejoin="round"
            fill="none"
          >
            {sediment.glyphs.map((name, layer) => {
              const strokes = DRAW[name](at, seed + layer * 1000);
              const drawn = keep(strokes.d);
              if (drawn === '') return null;
              return (
                <path
                  // biome-ignore lint/suspicious/noArrayIndexKey: the layers of a pattern have no other name
                  key={layer}
                  d={drawn}
                  strokeWidth={r2(strokes.weight)}
                  fill={strokes.closed ? tint : undefined}
                />
              );
            })}
          </g>
        </>
      )}
    </g>
  );
}

/** A glyph reaches no farther than this from where it begins, points; a dash is as long as it says. */
const REACH = 3.5;

/** Strokes that begin in the outline or near enough to reach into it; dots only inside. */
function strokesWithin(strokes: string, outline: readonly (readonly [number, number])[]): string {
  let out = '';
  for (const stroke of strokes.split(/(?=M)/)) {
    const found = /^M(-?[\d.]+) (-?[\d.]+)(?:(h\.01$)|H(-?[\d.]+))?/.exec(stroke);
    if (found === null) continue;
    const [x, y] = [Number(found[1]), Number(found[2])];
    const end = found[4] === undefined ? null : Number(found[4]);
    const near: [number, number][] =
      found[3] !== undefined
        ? [[x, y]]
        : end !== null
          ? [
              [x, y],
              [(x + end) / 2, y],
              [end, y],
            ]
          : [
              [x, y],
              [x - REACH, y],
              [x + REACH, y],
              [x, y - REACH],
              [x, y + REACH],
            ];
    if (near.some(([px, py]) => isWithin(px, py, outline))) out += stroke;
  }
  return out;
}
