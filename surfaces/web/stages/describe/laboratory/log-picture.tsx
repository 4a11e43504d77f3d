/** The drawing of the printed figure at the screen's size, with what its signs mean. */
import type { Results } from '@stillstand/campaign/results';
import { INKS, InkContext, SIZE, TEXT_FAMILY, ZOOM } from '@stillstand/output/drawing';
import { LaboratoryDrawing, laboratoryLayout, lanesCaption } from '@stillstand/output/figures';
import { useMemo } from 'react';
import { counted, useWidth } from '../../../parts/index.ts';
import { useTheme } from '../../../shell/index.ts';

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
  return (
    <>
      <svg
        viewBox={`0 0 ${points} ${layout.height}`}
        width={width}
        height={layout.height * ZOOM}
        fontFamily={TEXT_FAMILY}
        fontSize={SIZE.text}
        role="img"
        aria-label={`Laboratory values of ${hole} against depth: ${layout.lanes.map(({ property }) => property).join(', ')}`}
      >
        <InkContext value={INKS[theme]}>
          <LaboratoryDrawing layout={layout} id="logs-on-screen" />
        </InkContext>
      </svg>
      <p className="drawing-notes">
        {layout.left.length === 0
          ? ''
          : `${layout.lanes.length} of ${counted(shown, 'quantity', 'quantities')} have room here. Choose fewer to see the others. `}
        {lanesCaption(layout.lanes)}
      </p>
    </>
  );
}
