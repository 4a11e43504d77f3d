/** Laboratory values of one hole against in-situ depth, with the column at their left. */
import type { Results } from '@stillstand/campaign/results';
import { assumedHole, holeTitle } from './chronology.ts';
import { notDrawn } from './column/laboratory.ts';
import { LaboratoryDrawing, laboratoryLayout } from './column/laboratory-drawing.tsx';
import { lanesCaption } from './column/laboratory-lanes.tsx';
import { drawn, type Figure, type FigureOptions, innerWidth, plainName } from './figure.tsx';
import { noPatternText } from './no-pattern.ts';

/** Of the ground drawn, points. */
const HEIGHT = { least: 240, most: 470 };

/** Two columns of a page wide; quantities without room are named. Throws RangeError for a hole the results do not have. */
export function laboratoryFigure(results: Results, hole: string, options: FigureOptions = {}): Figure {
  const layout = laboratoryLayout(results, hole, { width: innerWidth('two', options), ...HEIGHT });
  const { column: c, lanes, left, count } = layout;
  const name = `laboratory-${plainName(hole)}`;
  const assumed = assumedHole(c.hole);
  return drawn(
    {
      name,
      width: 'two',
      title: holeTitle(c.hole),
      notes: [`${lanes.length} of ${count} quantities measured`],
      warnings: assumed === null ? [] : [{ kind: 'assumed', text: assumed }],
      caption: {
        head: `Laboratory values of hole ${hole} at their in-situ depth.`,
        text: [lanesCaption(lanes), notDrawn(left), noPatternText(c.hole.units)].filter(Boolean).join(' '),
      },
      height: layout.height,
    },
    <LaboratoryDrawing layout={layout} id={name} />,
    options,
  );
}
