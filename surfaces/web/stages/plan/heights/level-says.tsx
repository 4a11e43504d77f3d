/** What the loop as a whole calls for: a misclosure beyond its limit, what it most likely is, what is missing. */
import { signed } from '@stillstand/output/words';
import type { Slip } from '@stillstand/science/survey';
import { Mark } from '../../../parts/index.ts';
import { type BookLine, counts } from './level-lines.ts';
import type { Preview } from './level-preview.ts';

export function LevelSays({ preview, lines }: { preview: Preview; lines: readonly BookLine[] }) {
  const { loop } = preview;
  const used = lines.filter(counts);
  if (loop === null || used.length < 2) return null;
  const nameOf = (row_id: string): string => {
    const at = used.findIndex(({ key }) => key === row_id);
    return `${used[at]?.cells.point.trim() || 'the station'} (line ${at + 1})`;
  };
  // Of a book that ends before its last line nothing is missing yet.
  const quiet = (preview.endsAt === null ? loop.findings : []).filter(({ code }) =>
    ['level-no-fixed-point', 'level-not-closed', 'level-sight-missing', 'level-distance-assumed'].includes(
      code,
    ),
  );
  return (
    <div className="level-says" role="status">
      {preview.endsAt === null ? null : (
        <p className="says-caution">
          <Mark name="close" size={16} /> Heights end before line{' '}
          {lines.findIndex(({ key }) => key === preview.endsAt) + 1}, which cannot be read.
        </p>
      )}
      {loop.closures
        .filter(({ within }) => !within)
        .map(({ point, misclosure_m, allowed_m }, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a closure is its place in the line
          <p key={i} className="says-caution">
            <Mark name="close" size={16} /> The loop does not close at {point}:{' '}
            {signed(misclosure_m * 1000, 0)} mm, limit ±{(allowed_m * 1000).toFixed(0)} mm. Check the readings
            for a misread staff; if none is found, level the loop again. It is kept as it is, and its heights
            carry an error of that size.
          </p>
        ))}
      {preview.slips.map((slip, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: questions have no identity
        <p key={i} className="says-caution">
          <Mark name="help" size={16} /> {slipWords(slip, nameOf)}
        </p>
      ))}
      {quiet.map(({ code, expected, fix }) => (
        <p key={code} className="quiet">
          {QUIET[code] ?? `Expected ${expected}.`} {fix}
        </p>
      ))}
    </div>
  );
}

const QUIET: Readonly<Record<string, string>> = {
  'level-no-fixed-point': 'No bench mark with an elevation yet, so heights are not shown.',
  'level-not-closed': 'Not closed yet.',
  'level-sight-missing': 'The last set-up is open.',
  'level-distance-assumed': 'No distance for some set-ups.',
};

function slipWords(slip: Slip, nameOf: (row_id: string) => string): string {
  if (slip.kind === 'round') {
    const where =
      slip.between === null
        ? ''
        : ` Look between ${nameOf(slip.between.from)} and ${nameOf(slip.between.to)}: stations sighted twice agree elsewhere.`;
    return `Was a staff misread by ${slip.slip_m === 1 ? '1 m' : '0.1 m (10 cm)'}?${where}`;
  }
  return `The misclosure is twice the ${slip.in === 'back' ? 'back sight' : 'fore sight'} ${slip.reading_m.toFixed(3)} at ${nameOf(slip.row_id)}. Is it in the wrong column, or was the staff upside down?`;
}
