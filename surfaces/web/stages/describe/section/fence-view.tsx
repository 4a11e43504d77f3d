/** All section lines together, as the figure of the fence has them, as wide as the page and no less than it can be read. */
import type { Results } from '@stillstand/campaign/results';
import { INKS, InkContext, SIZE, TEXT_FAMILY, Text } from '@stillstand/output/drawing';
import { FenceDrawing, fenceLayout, fenceLines } from '@stillstand/output/figures';
import { useMemo } from 'react';
import { printed } from '../../../parts/index.ts';

/** Screen pixels a point, as in the section. */
const PX = 13 / SIZE.small;
/** Narrower, names and panels are not told apart: it is pushed aside. */
const LEAST = 300;

export function FenceView({
  results,
  width: pixels,
  theme,
}: {
  results: Results;
  width: number;
  theme: 'day' | 'night';
}) {
  const width = Math.max(LEAST, pixels / PX);
  const layout = useMemo(() => fenceLayout(results, fenceLines(results), width), [results, width]);
  const { exaggeration, height } = layout;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className="ruled-scroll section-scroll" tabIndex={0} aria-label="Fence, drawn">
      <svg
        width={width * PX}
        height={height * PX}
        viewBox={`0 0 ${width} ${height}`}
        fontFamily={TEXT_FAMILY}
        fontSize={7}
        role="img"
        aria-label={`Fence of ${new Set(layout.names.map(({ words }) => words)).size} section lines, ${layout.holes.length} holes, seen from the south`}
      >
        <InkContext value={INKS[theme]}>
          <FenceDrawing layout={layout} />
          <Text x={width} y={height - 6} anchor="end" voice="ink2">
            vertical exaggeration {printed(exaggeration, exaggeration < 10 ? 1 : 0)}
          </Text>
        </InkContext>
      </svg>
    </section>
  );
}
