/** Grain size of one hole: cumulative curves, the triangle of sand, silt and clay, and what each number is. */
import type { Results } from '@stillstand/campaign/results';
import { type Rect, shortened, Text } from '@stillstand/output/drawing';
import { counted } from '@stillstand/output/words';
import { assumedHole, holeTitle } from './chronology.ts';
import { drawn, type Figure, type FigureOptions, innerWidth, plainName } from './figure.tsx';
import { GrainCurves } from './grains/curves.tsx';
import { grainsWords, type NumberedGrains, numberedGrains } from './grains/key.ts';
import { GrainTriangle, mixtureOf } from './grains/triangle.tsx';

/** Of both panels, points; the triangle is equal-sided. */
const HEIGHT = 168;
const TOP = 26;
const FOOT = 36;
/** Between panels, with the words of their axes. */
const GAP = 40;
/** So wide that the longest name of a texture stands in it whole. */
const KEY = 181;
const KEY_LEADING = 8.6;
/** Staff of per cent left of the curves. */
const LEFT = 22;
const TRIANGLE = { most: 190, least: 120 };
const LEAST_CURVES = 130;

/** Whether a hole has an analysis to draw. */
export const hasGrainSizes = (results: Results, hole: string): boolean =>
  numberedGrains(results, hole).of.length > 0;

/** Two columns of a page wide; the key goes below the drawing on a narrow one. Throws RangeError for an unknown hole. */
export function grainSizeFigure(results: Results, label: string, options: FigureOptions = {}): Figure {
  const hole = results.holes.find((each) => each.hole === label);
  if (hole === undefined) {
    const known = results.holes.map((each) => each.hole).join(', ');
    throw new RangeError(`grainSizeFigure: expected one of ${known}, found ${label}`);
  }
  const { of, left } = numberedGrains(results, label);
  const inner = innerWidth('two', options);
  const mixed = of.filter((each) => mixtureOf(each) !== null);
  const l = layout(inner, mixed.length > 0, of.length);
  const shown = of.slice(0, l.rows * l.columns);
  const assumed = assumedHole(hole);
  const scale = of[0]?.size.scale === 'iso_14688' ? 'ISO 14688-1' : 'Wentworth 1922';
  return drawn(
    {
      name: `grain-size-${plainName(label)}`,
      width: 'two',
      title: `Grain size, ${holeTitle(hole)[0]!.toLowerCase()}${holeTitle(hole).slice(1)}`,
      notes: [counted(of.length, 'analysis', 'analyses')],
      warnings: assumed === null ? [] : [{ kind: 'assumed', text: assumed }],
      caption: {
        head: `Grain size of hole ${label}.`,
        text: captionText(of, left, mixed.length, of.length - shown.length, scale),
      },
      height: l.height,
    },
    <g>
      <Head x={0} letter="a" words="coarser, % of mass" />
      <GrainCurves of={of} at={l.curves} />
      {l.triangle === null ? null : (
        <>
          <Head x={l.triangle.x1 - 12} letter="b" words="" />
          <GrainTriangle of={of} at={l.triangle} />
        </>
      )}
      {shown.map((each, i) => (
        <KeyRow
          key={each.number}
          of={each}
          x={l.key.x1 + Math.floor(i / l.rows) * l.keyWidth}
          y={l.key.y1 + (i % l.rows) * KEY_LEADING}
          width={l.keyWidth - 6}
        />
      ))}
    </g>,
    options,
  );
}

function Head({ x, letter, words }: { x: number; letter: string; words: string }) {
  return (
    <Text x={x} y={8}>
      <tspan fontWeight={600}>({letter})</tspan> {words}
    </Text>
  );
}

function KeyRow({ of, x, y, width }: { of: NumberedGrains; x: number; y: number; width: number }) {
  const { where, what } = grainsWords(of);
  return (
    <g>
      <Text x={x + 9} y={y} anchor="end" weight={600}>
        {of.number}
      </Text>
      <Text x={x + 13} y={y}>
        {where}
      </Text>
      <Text x={x + 47} y={y} voice="ink2">
        {shortened(what, width - 47)}
      </Text>
    </g>
  );
}

interface Layout {
  curves: Rect;
  triangle: Rect | null;
  key: { x1: number; y1: number };
  keyWidth: number;
  rows: number;
  columns: number;
  height: number;
}

function layout(inner: number, hasTriangle: boolean, count: number): Layout {
  const y2 = TOP + HEIGHT - 8;
  const isWide = inner >= LEFT + LEAST_CURVES + 6 + (hasTriangle ? GAP + TRIANGLE.least : 0) + GAP / 2 + KEY;
  const room = inner - LEFT - (isWide ? KEY + GAP / 2 : 0);
  const side = hasTriangle ? Math.min(TRIANGLE.most, Math.max(TRIANGLE.least, 0.47 * (room - GAP))) : 0;
  const x2 = LEFT + room - (hasTriangle ? side + GAP + 6 : 6);
  // Equal sides: its height is √3/2 of its width.
  const triangle = hasTriangle ? { x1: x2 + GAP, x2: x2 + GAP + side, y1: y2 - side * 0.8660254, y2 } : null;
  const bottom = y2 + FOOT;
  if (isWide) {
    const rows = Math.floor((bottom - TOP) / KEY_LEADING);
    return {
      curves: { x1: LEFT, x2, y1: TOP, y2 },
      triangle,
      key: { x1: inner - KEY, y1: TOP },
      keyWidth: KEY,
      rows,
      columns: 1,
      height: bottom,
    };
  }
  const columns = Math.max(1, Math.floor(inner / KEY));
  const rows = Math.min(12, Math.ceil(count / columns));
  return {
    curves: { x1: LEFT, x2, y1: TOP, y2 },
    triangle,
    key: { x1: 0, y1: bottom + 10 },
    keyWidth: inner / columns,
    rows,
    columns,
    height: bottom + 6 + rows * KEY_LEADING,
  };
}

function captionText(
  of: readonly NumberedGrains[],
  left: number,
  mixed: number,
  unlisted: number,
  scale: string,
): string {
  const hasGravel = of.some(({ size }) => (size.gravel_percent ?? 0) > 0);
  return [
    '(a) Cumulative curves, straight between the limits of the classes; numbers from the top of the hole down.',
    of.some(({ size }) => (size.open_fine_percent ?? 0) > 0)
      ? 'A ring ends a curve where the rest is in a class without a finer limit.'
      : '',
    mixed === 0
      ? ''
      : `(b) Fields of Folk 1954: S sand, Z silt, M mud, C clay; s sandy, z silty, m muddy, c clayey${hasGravel ? '; gravel is left out of account' : ''}.`,
    mixed > 0 && mixed < of.length
      ? `${counted(of.length - mixed, 'analysis', 'analyses')} without silt and clay apart: in (a) alone.`
      : '',
    `Limits of ${scale}.`,
    of.some(({ size }) => size.folk_ward !== null)
      ? 'In the key, φ: graphic mean and sorting of Folk & Ward 1957 (divisor 6.6).'
      : '',
    unlisted > 0 ? `${unlisted} more in grain_sizes.csv.` : '',
    left > 0 ? `Not drawn: ${counted(left, 'analysis', 'analyses')} whose classes do not sum to 100 %.` : '',
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}
