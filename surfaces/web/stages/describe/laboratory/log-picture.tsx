/** The drawing of the printed figure at the screen's size, with a line that reads all lanes at one depth. */
import type { Results } from '@stillstand/campaign/results';
import { horizontal, INKS, InkContext, LINE, SIZE, TEXT_FAMILY, ZOOM } from '@stillstand/output/drawing';
import {
  LaboratoryDrawing,
  type LaboratoryLayout,
  laboratoryLayout,
  lanesCaption,
} from '@stillstand/output/figures';
import { memo, useMemo, useState } from 'react';
import { counted, printed, Traced, useWidth } from '../../../parts/index.ts';
import { useTheme } from '../../../shell/index.ts';
import { ReadSlider } from '../read-slider.tsx';
import { depthsOf, nearestTo, readingsAt } from './readings.ts';

/** Of the ground drawn, points. */
const HEIGHT = { least: 250, most: 440 };

interface Props {
  results: Results;
  hole: string;
  /** How many quantities are asked for. */
  shown: number;
  hidden: ReadonlySet<string>;
}

export function LogPicture(props: Props) {
  const [box, width] = useWidth(0);
  return <div ref={box}>{width === 0 ? null : <Sized {...props} width={width} />}</div>;
}

function Sized({ results, hole, shown, hidden, width }: Props & { width: number }) {
  const { theme } = useTheme();
  const points = width / ZOOM;
  const layout = useMemo(
    () => laboratoryLayout(results, hole, { width: points, ...HEIGHT }, hidden),
    [results, hole, points, hidden],
  );
  const { lanes, depth, x, right, left, height } = layout;
  const depths = useMemo(() => depthsOf(lanes), [lanes]);
  const [chosen, setChosen] = useState<number | null>(null);
  const at = chosen === null || depths.length === 0 ? null : depths[nearestTo(depths, chosen)]!;
  return (
    <>
      <div className="read-line">
        {depths.length === 0 ? null : (
          <ReadSlider
            words="Read at depth"
            min={0}
            max={depths.length - 1}
            value={at === null ? 0 : nearestTo(depths, at)}
            aria-valuetext={at === null ? 'not chosen' : `${printed(at, 2)} metres`}
            onChange={({ target }) => setChosen(depths[Number(target.value)]!)}
          />
        )}
        {at === null ? (
          <p className="quiet">Press in the drawing to read all quantities at one depth.</p>
        ) : (
          <p className="read-values" role="status">
            <b>{printed(at, 2)} m</b>
            {readingsAt(lanes, at).map(({ property, text, id }, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: one quantity may be there twice
              <span key={i}>
                {property} <Traced id={id}>{text}</Traced>
              </span>
            ))}
          </p>
        )}
      </div>
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the slider below does the same by keyboard */}
      <svg
        viewBox={`0 0 ${points} ${height}`}
        width={width}
        height={height * ZOOM}
        fontFamily={TEXT_FAMILY}
        fontSize={SIZE.text}
        role="img"
        aria-label={`Laboratory values of ${hole} against depth: ${lanes.map(({ property }) => property).join(', ')}`}
        onClick={({ clientY, currentTarget }) => {
          const y = (clientY - currentTarget.getBoundingClientRect().top) / ZOOM;
          setChosen(depth.from + (y - depth(depth.from)) / depth.k);
        }}
      >
        <InkContext value={INKS[theme]}>
          <Drawing layout={layout} />
          {at === null ? null : (
            <path d={horizontal(x - 8, right, depth(at))} stroke={INKS[theme].ink} strokeWidth={LINE.bold} />
          )}
        </InkContext>
      </svg>
      <p className="drawing-notes">
        {left.length === 0
          ? ''
          : `${lanes.length} of ${counted(shown, 'quantity', 'quantities')} have room here. Choose fewer to see the others. `}
        {lanesCaption(lanes)}
      </p>
    </>
  );
}

const Drawing = memo(function Drawing({ layout }: { layout: LaboratoryLayout }) {
  return <LaboratoryDrawing layout={layout} id="logs-on-screen" />;
});
