/** A code that a camera reads (ISO/IEC 18004), drawn in whole dots. */
import { encodeQR } from 'qr';

/** The quiet room around it, in dots: white paper is around that. */
const QUIET = 2;

/** Its dots, row by row. A quarter of it may be dirt (error correction "quartile"). */
export const codeBits = (words: string): boolean[][] =>
  encodeQR(words, 'raw', { ecc: 'quartile', border: QUIET });

export function Code({ bits, side_mm, words }: { bits: boolean[][]; side_mm: number; words: string }) {
  const d = bits
    .flatMap((row, y) => runsOf(row).map(([from, to]) => `M${from} ${y}h${to - from}v1h${from - to}z`))
    .join('');
  return (
    <svg
      width={`${side_mm}mm`}
      height={`${side_mm}mm`}
      viewBox={`0 0 ${bits.length} ${bits.length}`}
      role="img"
      aria-label={words}
      shapeRendering="crispEdges"
    >
      <path d={d} />
    </svg>
  );
}

/** Where a row is dark, from and to. */
function runsOf(row: readonly boolean[]): [number, number][] {
  const runs: [number, number][] = [];
  for (const [x, isDark] of row.entries()) {
    const last = runs.at(-1);
    if (!isDark) continue;
    if (last !== undefined && last[1] === x) last[1] = x + 1;
    else runs.push([x, x + 1]);
  }
  return runs;
}
