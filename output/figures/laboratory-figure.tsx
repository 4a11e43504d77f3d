/** Laboratory values of one hole against in-situ depth, with the column at their left. */
import type { Results } from '@stillstand/campaign/results';
import { scale, staffStep, Text, UprightStaff } from '@stillstand/output/drawing';
import { assumedHole, holeTitle } from './chronology.ts';
import { Ground } from './column/ground.tsx';
import { lanesOf, notDrawn } from './column/laboratory.ts';
import { LANE_GAP, LaboratoryLanes, lanesCaption, lanesIn } from './column/laboratory-lanes.tsx';
import { gather, HEAD } from './column/lanes.ts';
import { drawn, type Figure, type FigureOptions, innerWidth, plainName } from './figure.tsx';
import { noPatternText } from './no-pattern.ts';

/** Of the ground drawn, points. */
const HEIGHT = { least: 240, most: 470, of_a_metre: 40 };
/** Of a lane where there are few, points. */
const WIDEST = 130;
/** Where the staff of depth stands, points: farther left than in the graphic log. */
const STAFF = 28;

/** Two columns of a page wide; quantities without room are named. Throws RangeError for a hole the results do not have. */
export function laboratoryFigure(results: Results, hole: string, options: FigureOptions = {}): Figure {
  const inner = innerWidth('two', options);
  const c = gather(results, hole, inner);
  const { lane } = c;
  const shift = lane.depthStaff - STAFF;
  const all = lanesOf(results, hole);
  const { bottom_m } = c;
  const right = inner - 2;
  const x = lane.column - shift + lane.gravelWidth + LANE_GAP;
  const lanes = all.slice(0, lanesIn(right - x + LANE_GAP));
  const left = all.slice(lanes.length);
  const height = Math.min(HEIGHT.most, Math.max(HEIGHT.least, bottom_m * HEIGHT.of_a_metre));
  const depth = scale(0, bottom_m, HEAD, HEAD + height);
  const name = `laboratory-${plainName(hole)}`;
  const assumed = assumedHole(c.hole);
  return drawn(
    {
      name,
      width: 'two',
      title: holeTitle(c.hole),
      notes: [`${lanes.length} of ${all.length} quantities measured`],
      warnings: assumed === null ? [] : [{ kind: 'assumed', text: assumed }],
      caption: {
        head: `Laboratory values of hole ${hole} at their in-situ depth.`,
        text: [lanesCaption(lanes), notDrawn(left), noPatternText(c.hole.units)].filter(Boolean).join(' '),
      },
      height: HEAD + height + 6,
    },
    <g>
      <Text x={0} y={7} weight={600}>
        in-situ depth
      </Text>
      <Text x={0} y={15} voice="ink2">
        m below ground
      </Text>
      <UprightStaff
        x={STAFF}
        scale={depth}
        low={0}
        high={bottom_m}
        sign={false}
        {...staffStep(depth.k, 16, 10)}
      />
      <g transform={`translate(${-shift} 0)`}>
        <Ground column={c} depth={depth} id={name} />
      </g>
      <LaboratoryLanes
        lanes={lanes}
        x={x}
        right={Math.min(right, x + lanes.length * WIDEST)}
        depth={depth}
        bottom={HEAD + height}
        id={name}
      />
    </g>,
    options,
  );
}
