/** The misclosure as a bar against its limit, on a staff in millimetres; it grows with the lines. */
import { printed, signed } from '@stillstand/output/words';
import { levelDefaults } from '@stillstand/science/survey';
import { Staff, useWidth } from '../../../parts/index.ts';
import type { Preview } from './level-preview.ts';

const HEIGHT = 74;
const BAR = [14, 32] as const;
const STAFF_Y = 34;

export function Misclosure({ preview, hasLines }: { preview: Preview; hasLines: boolean }) {
  const [place, width] = useWidth(0);
  const { loop } = preview;
  if (!hasLines || loop === null || loop.length_km === 0) return <div ref={place} className="misclosure" />;
  const closure = loop.closures.findLast(({ within }) => !within) ?? loop.closures.at(-1) ?? null;
  const limit_mm =
    (closure?.allowed_m ?? (levelDefaults.allowed_mm_sqrt_km * Math.sqrt(loop.length_km)) / 1000) * 1000;
  const length_km = closure?.length_km ?? loop.length_km;
  const per = limit_mm / Math.sqrt(length_km);
  const mm = closure === null ? null : closure.misclosure_m * 1000;
  const formula = `limit ${printed(per, 0)} mm × √${printed(length_km, 2)} km = ±${limit_mm.toFixed(1)} mm`;
  const words =
    mm === null
      ? `Not closed yet; ${formula}`
      : `Misclosure ${signed(mm, Math.abs(mm) < 100 ? 1 : 0)} mm at ${closure!.point}, ${closure!.within ? 'within' : 'beyond'} its limit; ${formula}`;
  return (
    <div ref={place} className="misclosure">
      <h3>Misclosure</h3>
      {width < 200 ? null : <Bar width={width} mm={mm} limit_mm={limit_mm} words={words} />}
      <p>{words}.</p>
    </div>
  );
}

function Bar({
  width,
  mm,
  limit_mm,
  words,
}: {
  width: number;
  mm: number | null;
  limit_mm: number;
  words: string;
}) {
  const reach = 1.3 * Math.max(limit_mm, Math.abs(mm ?? 0));
  const unit =
    [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000].find((step) => reach / step <= 5) ?? 10_000;
  const end = Math.ceil(reach / unit) * unit;
  const [left, right] = [30, width - 30];
  const x = (value: number): number => left + ((value + end) / (2 * end)) * (right - left);
  const isBeyond = mm !== null && Math.abs(mm) > limit_mm + 1e-6;
  return (
    <svg width={width} height={HEIGHT} viewBox={`0 0 ${width} ${HEIGHT}`} role="img" aria-label={words}>
      <rect
        className="allowed"
        x={x(-limit_mm)}
        y={BAR[0]}
        width={x(limit_mm) - x(-limit_mm)}
        height={BAR[1] - BAR[0]}
      />
      {[-limit_mm, limit_mm].map((at) => (
        <path key={at} className="limit" d={`M${x(at)} ${BAR[0] - 6}V${BAR[1]}`} />
      ))}
      {mm === null ? null : (
        <rect
          className={isBeyond ? 'closes beyond' : 'closes'}
          x={Math.min(x(0), x(mm))}
          y={BAR[0] + 4}
          width={Math.max(2, Math.abs(x(mm) - x(0)))}
          height={BAR[1] - BAR[0] - 8}
        />
      )}
      <Staff
        from={-end}
        to={end}
        at={[left, right]}
        across={STAFF_Y}
        unit={unit}
        labelEvery={width < 420 ? end : unit * Math.ceil(end / unit / 2)}
        lies="flat"
        labels="after"
        write={(value) => signed(value, 0)}
      />
    </svg>
  );
}
