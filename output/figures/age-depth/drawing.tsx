/** Ages against depth in one hole: the same drawing on paper and on the screen. */
import {
  AgeDensity,
  box,
  CautionMark,
  EDGE_ARROW,
  EdgeArrow,
  horizontal,
  isMarine,
  LINE,
  LyingStaff,
  multiples,
  polyline,
  Ruling,
  shortened,
  staffStep,
  Text,
  textWidth,
  useInk,
  vertical,
  wave,
} from '@stillstand/output/drawing';
import { printed, years } from '@stillstand/output/words';
import { square } from '@stillstand/science/base';
import { AGE_SCALE } from '../curve/axes.ts';
import { DepthStaff, Head } from '../drilling/track.tsx';
import { Band, FormerBand } from './band.tsx';
import { Accumulation, UnitsLane } from './lanes.tsx';
import type { AgeDepthLayout, AgeScaleName, Label } from './layout.ts';
import type { PlacedDate } from './placed.ts';

/** Of a density at its peak, points. */
const HEIGHT = 13;
const AGE_UNIT: Record<AgeScaleName, string> = { bp: 'cal BP', ce: 'BCE and CE', ka: 'ka cal BP' };

export function AgeDepthDrawing({
  layout,
  id,
  chosen = null,
}: {
  layout: AgeDepthLayout;
  /** Unique in the page. */
  id: string;
  /** Row of the date that is looked at. */
  chosen?: string | null;
}) {
  const { hole, history, before, isFormer, depth, unitsX, rateLane } = layout;
  return (
    <g>
      <Chosen layout={layout} chosen={chosen} />
      <DepthStaff depth={depth} />
      <UnitsLane hole={hole} x={unitsX} depth={depth} id={id} />
      <AgeAxis layout={layout} />
      <clipPath id={`${id}-ages`}>
        <path d={frame(layout)} />
      </clipPath>
      <g clipPath={`url(#${id}-ages)`}>
        {before === null ? null : <FormerBand history={before} place={layout} />}
        {history === null ? null : isFormer ? (
          <FormerBand history={history} place={layout} />
        ) : (
          <Band history={history} place={layout} id={`${id}-unsettled`} />
        )}
      </g>
      <Hiatuses layout={layout} />
      {layout.dates.map((placed) => (
        <DrawnDate key={placed.date.row_id} placed={placed} layout={layout} />
      ))}
      <Frame layout={layout} />
      {layout.labels.map((label) => (
        <DrawnLabel
          key={`${label.kind} ${label.at} ${label.y}`}
          label={label}
          layout={layout}
          chosen={chosen}
        />
      ))}
      {history === null || rateLane === null ? null : (
        <Accumulation history={history} isFormer={isFormer} lane={rateLane} depth={depth} />
      )}
    </g>
  );
}

const ends = ({ time, depth }: AgeDepthLayout) =>
  [time(time.from), depth(0), time(time.to), depth(depth.to)] as const;

const frame = (layout: AgeDepthLayout): string => box(...ends(layout));

/** The depth of the chosen date across the whole drawing. */
function Chosen({ layout, chosen }: { layout: AgeDepthLayout; chosen: string | null }) {
  const ink = useInk();
  const placed = layout.dates.find(({ date }) => date.row_id === chosen);
  if (placed === undefined) return null;
  const y = layout.depth(placed.depth_m);
  return (
    <g>
      <path d={box(layout.unitsX, y - HEIGHT - 2, layout.width, y + 3)} fill={ink.leaf} />
      <path
        d={horizontal(layout.unitsX, layout.width, y)}
        stroke={ink.line}
        strokeWidth={LINE.edge}
        fill="none"
      />
    </g>
  );
}

function AgeAxis({ layout }: { layout: AgeDepthLayout }) {
  const { written, depth, step, ages } = layout;
  const [x1, y1, x2, y2] = ends(layout);
  const down = staffStep(depth.k, 14, 18);
  const [low, high] = [Math.min(written.from, written.to), Math.max(written.from, written.to)];
  const apart = step.step * step.every;
  return (
    <g>
      <Head x={x1} first="age" second={AGE_UNIT[ages]} />
      <Ruling at={multiples(low, high, apart)} d={(age) => vertical(written(age), y1, y2)} />
      <Ruling at={multiples(0, depth.to, down.step * down.every)} d={(m) => horizontal(x1, x2, depth(m))} />
      <LyingStaff
        y={y1 - 4.4}
        scale={written}
        low={low}
        high={high}
        labels="above"
        label={(value) => AGE_SCALE[ages].label(value, apart)}
        {...step}
      />
    </g>
  );
}

/** The ground is the bold line on top. */
function Frame({ layout }: { layout: AgeDepthLayout }) {
  const ink = useInk();
  const [, y1, x2] = ends(layout);
  const left = layout.hole.units.length > 0 ? layout.unitsX : layout.time(layout.time.from);
  return (
    <g stroke={ink.ink} fill="none">
      <path d={frame(layout)} strokeWidth={LINE.fine} />
      <path d={horizontal(left, x2, y1)} strokeWidth={LINE.page} />
    </g>
  );
}

function Hiatuses({ layout }: { layout: AgeDepthLayout }) {
  const ink = useInk();
  const [x1, , x2] = ends(layout);
  return layout.hiatuses.map(({ id, depth_m, length_yr }) => (
    <g key={id}>
      <desc>{`below ${id} about ${printed(length_yr.median, 0)} years are missing`}</desc>
      <path
        d={wave(x1, x2, layout.depth(depth_m), 3, 0.8)}
        stroke={ink.ink2}
        strokeWidth={LINE.edge}
        fill="none"
      />
    </g>
  ));
}

function DrawnDate({ placed, layout }: { placed: PlacedDate; layout: AgeDepthLayout }) {
  const ink = useInk();
  const { time, depth, far } = layout;
  const { date, state, depth_m, low_m, high_m } = placed;
  const y = depth(depth_m);
  if (far.has(date)) return <FarDate placed={placed} layout={layout} />;
  return (
    <g>
      <AgeDensity
        date={date}
        x={time}
        y={y}
        height={HEIGHT}
        hollow={state === 'in doubt' || state === 'aside'}
      />
      <path
        d={vertical(time(date.median_cal_bp), depth(Math.max(0, low_m)), depth(Math.min(depth.to, high_m)))}
        stroke={state === 'rejected' ? ink.ink3 : ink.ink}
        strokeWidth={LINE.edge}
        fill="none"
      />
    </g>
  );
}

/** An age beyond the axis: an arrow at its edge, with the median. */
function FarDate({
  placed: { date, state, depth_m },
  layout,
}: {
  placed: PlacedDate;
  layout: AgeDepthLayout;
}) {
  const { time, depth } = layout;
  const y = depth(depth_m);
  const isRejected = state === 'rejected';
  const isLeft = date.median_cal_bp > (time.from + time.to) / 2;
  const edge = isLeft ? time(time.from) + 1 : time(time.to) - 1;
  const voice = isMarine(date) ? 'sea' : 'ink';
  return (
    <g>
      <EdgeArrow x={edge} y={y} isLeft={isLeft} voice={voice} rejected={isRejected} />
      <Text
        x={edge + (isLeft ? 1 : -1) * (EDGE_ARROW + 3)}
        y={y + 2.4}
        anchor={isLeft ? 'start' : 'end'}
        voice={isRejected ? 'ink2' : voice}
        struck={isRejected}
        halo
      >
        {years(date.median_cal_bp)}
      </Text>
    </g>
  );
}

function DrawnLabel({
  label,
  layout,
  chosen,
}: {
  label: Label;
  layout: AgeDepthLayout;
  chosen: string | null;
}) {
  const ink = useInk();
  const [, , x2] = ends(layout);
  const x = layout.codesX!;
  const y = label.y + 2.4;
  return (
    <g>
      <path
        d={polyline([
          [x2, label.at],
          [x2 + 3, label.y],
        ])}
        stroke={ink.line}
        strokeWidth={LINE.hair}
        fill="none"
      />
      {label.kind === 'date' ? (
        <Code placed={label.placed} x={x} y={y} isChosen={label.placed.date.row_id === chosen} />
      ) : (
        <Text x={x} y={y} voice="ink2">
          {label.kind === 'ground' ? 'ground' : `hiatus ${years(label.hiatus.length_yr.median)} yr`}
        </Text>
      )}
    </g>
  );
}

/** Room for a code before its mark, points. */
const CODE = 54;

function Code({ placed, x, y, isChosen }: { placed: PlacedDate; x: number; y: number; isChosen: boolean }) {
  const isRejected = placed.state === 'rejected';
  const words = shortened(placed.date.lab_code, CODE);
  return (
    <g>
      <Text x={x} y={y} voice={isRejected ? 'ink2' : 'ink'} struck={isRejected} weight={isChosen ? 600 : 400}>
        {words}
      </Text>
      {placed.state === 'in doubt' ? <CautionMark x={x + textWidth(words) + 6} y={y} /> : null}
    </g>
  );
}

/** The row of the date nearest to a place of the drawing, no farther than `reach` points; null where there is none. */
export function dateAt(layout: AgeDepthLayout, x: number, y: number, reach: number): string | null {
  const { time, depth, codesX } = layout;
  let best: { row_id: string; far: number } | null = null;
  for (const { date, depth_m } of layout.dates) {
    const [left, right] = [
      date.sets_95[0]?.older_cal_bp ?? date.median_cal_bp,
      date.sets_95.at(-1)?.younger_cal_bp ?? date.median_cal_bp,
    ].map((age) => Math.max(time(time.from), Math.min(time(time.to), time(age)))) as [number, number];
    const aside = Math.max(0, left - x, x - right);
    // The density is drawn above its depth.
    const middle = depth(depth_m) - HEIGHT / 2;
    const away = Math.max(0, Math.abs(y - middle) - HEIGHT / 2);
    const far = Math.sqrt(square(aside) + square(away));
    if (far <= reach && (best === null || far < best.far)) best = { row_id: date.row_id, far };
  }
  if (codesX === null || x < codesX) return best?.row_id ?? null;
  for (const label of layout.labels) {
    if (label.kind === 'date' && Math.abs(label.y - y) <= 4.1) return label.placed.date.row_id;
  }
  return best?.row_id ?? null;
}
