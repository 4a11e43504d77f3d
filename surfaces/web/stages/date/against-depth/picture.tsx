/** Age against depth on the screen: the drawing of the printed figure at the screen's size; a date is chosen by a press. */
import type { HoleHistory, HoleResult, Results } from '@stillstand/campaign/results';
import { INKS, InkContext, SIZE, TEXT_FAMILY, ZOOM } from '@stillstand/output/drawing';
import {
  AgeDepthDrawing,
  type AgeDepthLayout,
  AgeDepthLegend,
  type AgeScaleName,
  ageDepthLayout,
  ageDepthLegend,
  dateAt,
} from '@stillstand/output/figures';
import { memo, useMemo, useRef } from 'react';
import { counted, printed, useWidth } from '../../../parts/index.ts';
import { useTheme } from '../../../shell/index.ts';

/** A finger hits a date from so many pixels off. */
const REACH = 24;
/** A finger that moved less has pressed, not scrolled. */
const PRESS = 8;
const ROW = 12;

interface Props {
  results: Results;
  hole: HoleResult;
  isFormer: boolean;
  before: HoleHistory | null;
  ages: AgeScaleName;
  chosen: string | null;
  onChoose: (row_id: string | null) => void;
}

export function Picture(props: Props) {
  const [box, width] = useWidth(0);
  return (
    <div ref={box} className="picture">
      {width === 0 ? null : <Sized {...props} width={width} />}
    </div>
  );
}

function Sized({
  results,
  hole,
  isFormer,
  before,
  ages,
  chosen,
  onChoose,
  width,
}: Props & { width: number }) {
  const { theme } = useTheme();
  const points = width / ZOOM;
  const layout = useMemo(
    () => ageDepthLayout(results, hole, { width: points, least: 230, most: 400 }, { ages, isFormer, before }),
    [results, hole, points, ages, isFormer, before],
  );
  const legend = useMemo(() => ageDepthLegend(layout), [layout]);
  const height = layout.height + 18 + (legend.at(-1)?.row ?? 0) * ROW;
  const began = useRef<{ x: number; y: number } | null>(null);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing whose dates are pressed
    <svg
      viewBox={`0 0 ${points} ${height}`}
      width={width}
      height={height * ZOOM}
      fontFamily={TEXT_FAMILY}
      fontSize={SIZE.text}
      role="group"
      aria-label={`Ages against depth in ${hole.hole}`}
      onPointerDown={({ clientX: x, clientY: y }) => {
        began.current = { x, y };
      }}
      onPointerUp={({ clientX, clientY, currentTarget }) => {
        const from = began.current;
        began.current = null;
        if (from === null || Math.hypot(clientX - from.x, clientY - from.y) > PRESS) return;
        const { left, top } = currentTarget.getBoundingClientRect();
        onChoose(dateAt(layout, (clientX - left) / ZOOM, (clientY - top) / ZOOM, REACH / ZOOM));
      }}
      onPointerCancel={() => {
        began.current = null;
      }}
    >
      {/* biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: its dates are in the list too */}
      <g role="img" aria-label={inWords(layout)}>
        <InkContext value={INKS[theme]}>
          <Drawing layout={layout} chosen={chosen} />
          <AgeDepthLegend items={legend} y={layout.height + 10} width={points} />
        </InkContext>
      </g>
    </svg>
  );
}

const Drawing = memo(function Drawing(props: { layout: AgeDepthLayout; chosen: string | null }) {
  return <AgeDepthDrawing {...props} id="ages-on-screen" />;
});

/** The drawing in words. */
function inWords({ dates, history, isFormer }: AgeDepthLayout): string {
  const drawn = `${counted(dates.length, 'date')} at their depths`;
  if (history === null) return drawn;
  const { depth_m, age_cal_bp } = history;
  const foot = `${printed(depth_m.at(-1)!, 2)} metres: ${printed(age_cal_bp.median.at(-1)!, 0)} cal BP`;
  return `${drawn}; median age at ${foot}${isFormer ? ', of the former dates' : ''}`;
}
