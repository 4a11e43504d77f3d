/** Column and laboratory values of one hole, at the size of a page or a screen. */
import type { Results } from '@stillstand/campaign/results';
import { type Scale, scale, staffStep, Text, UprightStaff } from '@stillstand/output/drawing';
import { Ground } from './ground.tsx';
import { type Lane, lanesOf } from './laboratory.ts';
import { LANE_GAP, LaboratoryLanes, lanesIn } from './laboratory-lanes.tsx';
import { type Column, gather, HEAD } from './lanes.ts';

/** Of a lane where there are few, points. */
const WIDEST = 130;
/** Where the staff of depth is, points: farther left than in the graphic log. */
const STAFF = 28;
/** Points a metre, within the least and the most. */
const PER_METRE = 40;

export interface LaboratoryLayout {
  column: Column;
  lanes: readonly Lane[];
  /** Asked for and without room. */
  left: readonly Lane[];
  /** How many quantities the hole has. */
  count: number;
  depth: Scale;
  /** Of the lanes, points. */
  x: number;
  right: number;
  height: number;
}

/** Tells the lanes of a hole apart. */
export const laneName = ({ property, unit }: Pick<Lane, 'property' | 'unit'>): string =>
  `${property} ${unit}`.trim();

/** Throws RangeError for a hole the results do not have. `hidden`: names of lanes that are not asked for. */
export function laboratoryLayout(
  results: Results,
  hole: string,
  { width, least, most }: { width: number; least: number; most: number },
  hidden: ReadonlySet<string> = new Set(),
): LaboratoryLayout {
  const column = gather(results, hole, width);
  const { lane, bottom_m } = column;
  const all = lanesOf(results, hole);
  const asked = all.filter((each) => !hidden.has(laneName(each)));
  const right = width - 2;
  const x = lane.column - lane.depthStaff + STAFF + lane.gravelWidth + LANE_GAP;
  const lanes = asked.slice(0, lanesIn(right - x + LANE_GAP));
  const height = Math.min(most, Math.max(least, bottom_m * PER_METRE));
  return {
    column,
    lanes,
    left: asked.slice(lanes.length),
    count: all.length,
    depth: scale(0, bottom_m, HEAD, HEAD + height),
    x,
    right: Math.min(right, x + lanes.length * WIDEST),
    height: HEAD + height + 6,
  };
}

/** `id` is its own in the document. */
export function LaboratoryDrawing({ layout, id }: { layout: LaboratoryLayout; id: string }) {
  const { column, lanes, depth, x, right } = layout;
  return (
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
        high={column.bottom_m}
        sign={false}
        {...staffStep(depth.k, 16, 10)}
      />
      <g transform={`translate(${STAFF - column.lane.depthStaff} 0)`}>
        <Ground column={column} depth={depth} id={id} />
      </g>
      <LaboratoryLanes
        lanes={lanes}
        x={x}
        right={right}
        depth={depth}
        bottom={depth(column.bottom_m)}
        id={id}
      />
    </g>
  );
}
