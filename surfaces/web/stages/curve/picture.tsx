/** The curve on the screen: the drawing of the printed figure at the screen's size, with the interval in hand over it. */
import { curveOf, type Results, sitesOfCurve } from '@stillstand/campaign/results';
import { INKS, InkContext, SIZE, TEXT_FAMILY, ZOOM } from '@stillstand/output/drawing';
import { CurveDrawing, type CurveLayout, curveLayout, type RateBar } from '@stillstand/output/figures';
import { memo, useDeferredValue, useMemo } from 'react';
import { printed, useWidth } from '../../parts/index.ts';
import { useTheme } from '../../shell/index.ts';
import { Handles } from './handles.tsx';
import type { Interval } from './interval.ts';
import './picture.css';

interface PictureProps {
  results: Results;
  chosen: Interval | null;
  bars: readonly RateBar[];
  telling: string | null;
  /** Points whose names are written beside their marks. */
  named: ReadonlySet<string>;
  /** While the finger moves. */
  onMove: (interval: Interval) => void;
  /** When it lets go. */
  onChoose: (interval: Interval) => void;
  onPoint: (label: string | null) => void;
}

export function Picture(props: PictureProps) {
  const [box, width] = useWidth(740);
  return (
    <div ref={box} className="picture">
      <Sized {...props} width={width} />
    </div>
  );
}

function Sized({
  results,
  chosen,
  bars,
  telling,
  named,
  onMove,
  onChoose,
  onPoint,
  width,
}: PictureProps & { width: number }) {
  const { theme } = useTheme();
  const points = width / ZOOM;
  const layout = useMemo(
    () =>
      curveLayout(results, {
        width: points,
        level_height: Math.min(244, Math.max(150, points * 0.64)),
        rate_height: Math.min(122, Math.max(84, points * 0.32)),
      }),
    [results, points],
  );
  // The finger comes first; the drawing follows when there is time.
  const drawn = useDeferredValue(
    useMemo(() => ({ chosen, bars, telling, named }), [chosen, bars, telling, named]),
  );
  const height = layout.height + 12;
  const { curve } = layout.panels;
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing with two sliders in it
    <svg
      viewBox={`0 0 ${points} ${height}`}
      width={width}
      height={height * ZOOM}
      fontFamily={TEXT_FAMILY}
      fontSize={SIZE.text}
      role="group"
      aria-label="Sea level and rate against age"
    >
      {/* biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: nothing in it is pressed */}
      <g role="img" aria-label={inWords(results)}>
        <InkContext value={INKS[theme]}>
          <Drawing layout={layout} {...drawn} />
        </InkContext>
      </g>
      {curve === null ? null : (
        <Handles
          layout={layout}
          zoom={ZOOM}
          curve={curve}
          chosen={chosen}
          onMove={onMove}
          onChoose={onChoose}
          onPoint={onPoint}
        />
      )}
    </svg>
  );
}

const Drawing = memo(function Drawing(props: {
  layout: CurveLayout;
  chosen: Interval | null;
  bars: readonly RateBar[];
  telling: string | null;
  named: ReadonlySet<string>;
}) {
  return <CurveDrawing {...props} id="curve-on-screen" />;
});

function inWords(results: Results): string {
  const curve = curveOf(results);
  const { points } = results;
  const sites = sitesOfCurve(results);
  const used = points.filter(
    ({ status, site }) => status === 'accepted' && (curve === null || sites.includes(site)),
  ).length;
  if (curve === null) return `${used} points, no curve`;
  const ages = Array.from(curve.ages_cal_bp);
  const oldest = ages.indexOf(Math.max(...ages));
  const youngest = ages.indexOf(Math.min(...ages));
  const at = (i: number): string =>
    `${printed(curve.level_m.median[i]!, 1)} metres at ${printed(ages[i]!, 0)} cal BP`;
  return `Median sea level from ${at(oldest)} to ${at(youngest)}, with its 68 and 95 per cent bands, through ${used} points; below it the rate`;
}
