/** Ages against depth in one hole: every date at its depth, all of them together as a band, and how fast it filled. */
import type { DateResult, HoleHistory, HoleResult, Results } from '@stillstand/campaign/results';
import {
  AgeDensity,
  box,
  CautionMark,
  DOTTED,
  Hatching,
  horizontal,
  LINE,
  LyingStaff,
  multiples,
  Pattern,
  placeAlong,
  polyline,
  Ruling,
  type Scale,
  scale,
  sedimentOfUnit,
  staffStep,
  Text,
  textWidth,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { counted, printed } from '@stillstand/output/words';
import { isProbableOutlier } from '@stillstand/science/dating';
import { ageWarnings, chronology, yearsOf } from './chronology.ts';
import { diagnosticsInWords, notConverged } from './diagnostics.ts';
import { DepthStaff, depthScale, FIRST_LANE, Head, Track } from './drilling/track.tsx';
import {
  drawn,
  type Figure,
  type FigureOptions,
  innerWidth,
  narrowness,
  plainName,
  type Warning,
} from './figure.tsx';
import { holeOf, lostWarning } from './hole-of.ts';
import { noPatternText } from './no-pattern.ts';

const UNITS = 26;
const RATE = 84;
const GAP = 16;
/** Room for the codes of the dates, right of the ages. */
const CODES = 62;
/** Least room for the ages. */
const LEAST_AGES = 100;
/** Of a density, points. */
const HEIGHT = 13;

interface Placed {
  date: DateResult;
  depth_m: number;
  /** 95 % of its depth. */
  low_m: number;
  high_m: number;
}

/** Ages against depth, two columns wide; the band only where the hole has one. RangeError for an unknown hole. */
export function ageDepthFigure(results: Results, label: string, options: FigureOptions = {}): Figure {
  const hole = holeOf(results, label, 'ageDepthFigure');
  const model = results.histories.find((each) => each.hole === label) ?? null;
  const samples = results.samples.filter((s) => s.hole === label);
  const depths = new Map(samples.map((s) => [s.sample, s.depth_m]));
  const dates = chronology(results, samples).map(({ date, depth_m }): Placed => {
    const depth = depths.get(date.sample) ?? null;
    return { date, depth_m, low_m: depth?.lower95 ?? depth_m, high_m: depth?.upper95 ?? depth_m };
  });
  const inner = innerWidth('two', options);
  const bottom = Math.max(0.1, hole.penetration_m ?? 0, ...dates.map((d) => d.high_m));
  const depth = depthScale(bottom, 200, 400);
  const unitsX = FIRST_LANE;
  const agesX = unitsX + (hole.units.length > 0 ? UNITS + 8 : 0);
  // The lane of the accumulation rate gives way first, then the codes.
  const whole = agesX + LEAST_AGES + CODES + (model === null ? 0 : GAP + RATE);
  const hasRate = model !== null && inner >= whole;
  const hasCodes = inner >= agesX + LEAST_AGES + CODES;
  const rateX = inner - RATE;
  const agesEnd = (hasRate ? rateX - GAP : inner) - (hasCodes ? CODES : 8);
  const ends = dates.flatMap(({ date }) => [
    date.sets_95[0]?.older_cal_bp ?? date.median_cal_bp,
    date.sets_95.at(-1)?.younger_cal_bp ?? date.median_cal_bp,
  ]);
  const within = model === null ? [] : dated(model, dates);
  const oldest = Math.max(100, ...ends, ...within) * 1.03;
  const youngest = Math.min(0, ...ends);
  const time = scale(oldest, youngest, agesX, agesEnd);

  const drawing = (
    <g>
      <DepthStaff depth={depth} />
      <Units hole={hole} x={unitsX} depth={depth} />
      <Ages model={model} dates={dates} time={time} depth={depth} codesX={hasCodes ? agesEnd + 6 : null} />
      {model === null || !hasRate ? null : <Accumulation model={model} x={rateX} depth={depth} />}
    </g>
  );
  return drawn(
    {
      name: `age-depth-${plainName(label)}`,
      width: 'two',
      title: `Ages against depth, hole ${label}`,
      notes: notes(model, dates),
      warnings: [
        ...warnings(hole, model, dates),
        ...narrowness(
          whole,
          inner,
          hasCodes
            ? 'the accumulation rate is left out'
            : 'laboratory codes and the accumulation rate are left out',
        ),
      ],
      caption: { head: `Ages against depth in hole ${label}.`, text: captionText(hole, model, dates) },
      height: depth(bottom) + 6,
    },
    drawing,
    options,
  );
}

/** Ends of the band between the first and the last date: beyond, it opens as far as it likes. */
function dated(model: HoleHistory, dates: readonly Placed[]): number[] {
  const [top, bottom] = [Math.min(...dates.map((d) => d.depth_m)), Math.max(...dates.map((d) => d.depth_m))];
  return Array.from(model.age_cal_bp.upper95).filter((_, i) => {
    const at = model.depth_m[i]!;
    return at >= top && at <= bottom;
  });
}

function notes(model: HoleHistory | null, dates: readonly Placed[]): string[] {
  return [
    counted(dates.length, 'date'),
    ...(model?.diagnostics.converged === true ? [`converged: ${diagnosticsInWords(model.diagnostics)}`] : []),
  ];
}

function warnings(hole: HoleResult, model: HoleHistory | null, dates: readonly Placed[]): Warning[] {
  const doubtful = (model?.clocks ?? []).filter(isProbableOutlier).map((d) => d.id);
  return [
    ...lostWarning(hole),
    ...ageWarnings(dates.map((d) => d.date)),
    ...(model === null || model.diagnostics.converged
      ? []
      : [{ kind: 'not_converged' as const, text: notConverged(model.diagnostics) }]),
    ...(doubtful.length === 0
      ? []
      : [{ kind: 'caution' as const, text: `More likely out of place than not: ${doubtful.join(', ')}` }]),
  ];
}

function captionText(hole: HoleResult, model: HoleHistory | null, dates: readonly Placed[]): string {
  return [
    `Densities: calibrated ages${yearsOf(dates.map((d) => d.date))}, each standing on the depth of its sample, the bar the 95 % of that depth.`,
    model === null
      ? 'Fewer than three dates in use: no age is modelled between them.'
      : 'Band: age at each depth from all dates of the hole together (68 and 95 %, bold the median); any one date may be out of place. Right: how fast the ground built up, gaps not counted.',
    dates.some((d) => d.date.status === 'rejected')
      ? 'Rejected dates are hollow and struck, and not used.'
      : '',
    (model?.hiatuses.length ?? 0) > 0 ? 'Waved: erosional contacts, where years may be missing.' : '',
    noPatternText(hole.units),
  ]
    .filter((part) => part !== '')
    .join(' ');
}

function Units({ hole, x, depth }: { hole: HoleResult; x: number; depth: Scale }) {
  const ink = useInk();
  if (hole.units.length === 0) return null;
  return (
    <g>
      <Head x={x} first="layers" second="" />
      {hole.units.map((unit) => {
        const y1 = depth(unit.depth_top_m.value);
        const y2 = depth(Math.min(depth.to, unit.depth_bottom_m.value));
        return y2 - y1 < 0.2 ? null : (
          <Pattern
            key={unit.row_id}
            sediment={sedimentOfUnit(unit)}
            at={{ x1: x, y1, x2: x + UNITS, y2 }}
            id={`age-depth-${unit.row_id}`}
            seed={1}
          />
        );
      })}
      <path
        d={hole.units
          .map((unit) =>
            box(
              x,
              depth(unit.depth_top_m.value),
              x + UNITS,
              depth(Math.min(depth.to, unit.depth_bottom_m.value)),
            ),
          )
          .join('')}
        fill="none"
        stroke={ink.ink}
        strokeWidth={LINE.fine}
      />
    </g>
  );
}

interface AgesProps {
  model: HoleHistory | null;
  dates: readonly Placed[];
  time: Scale;
  depth: Scale;
  /** Null where they have no room. */
  codesX: number | null;
}

function Ages({ model, dates, time, depth, codesX }: AgesProps) {
  const ink = useInk();
  const x1 = time(time.from);
  const x2 = time(time.to);
  const y1 = depth(0);
  const y2 = depth(depth.to);
  const step = staffStep(time.k, 12, 30);
  const down = staffStep(depth.k, 14, 18);
  const doubtful = new Set((model?.clocks ?? []).filter(isProbableOutlier).map((d) => d.id));
  const places = placeAlong(
    dates.map((d) => ({ at: depth(d.depth_m), size: 8 })),
    y1,
    y2 + 5,
  );
  return (
    <g>
      <Head x={x1} first="age" second="cal BP" />
      <Ruling
        at={multiples(time.to, time.from, step.step * step.every)}
        d={(age) => vertical(time(age), y1, y2)}
      />
      <Ruling at={multiples(0, depth.to, down.step * down.every)} d={(m) => horizontal(x1, x2, depth(m))} />
      <clipPath id="age-depth-ages">
        <path d={box(x1, y1, x2, y2)} />
      </clipPath>
      <g clipPath="url(#age-depth-ages)">
        {model === null ? null : <Band model={model} time={time} depth={depth} />}
        {model?.hiatuses.map(({ id: unit, length_yr }) => (
          <desc key={unit}>{`below ${unit} about ${printed(length_yr.median, 0)} years are missing`}</desc>
        ))}
      </g>
      {dates.map(({ date, depth_m, low_m, high_m }) => (
        <g key={date.row_id}>
          <AgeDensity date={date} x={time} y={depth(depth_m)} height={HEIGHT} />
          <path
            d={vertical(
              time(date.median_cal_bp),
              depth(Math.max(0, low_m)),
              depth(Math.min(depth.to, high_m)),
            )}
            stroke={date.status === 'rejected' ? ink.ink3 : ink.ink}
            strokeWidth={LINE.edge}
            fill="none"
          />
        </g>
      ))}
      <path d={box(x1, y1, x2, y2)} stroke={ink.ink} strokeWidth={LINE.fine} fill="none" />
      <LyingStaff
        y={y1 - 3.4}
        scale={time}
        low={time.to}
        high={time.from}
        labels="above"
        label={(age) => printed(age, 0)}
        {...step}
      />
      {(codesX === null ? [] : dates).map(({ date, depth_m }, i) => {
        const y = places[i]! + 2.4;
        const rejected = date.status === 'rejected';
        return (
          <g key={date.row_id}>
            <path
              d={polyline([
                [x2, depth(depth_m)],
                [x2 + 3, places[i]!],
              ])}
              stroke={ink.line}
              strokeWidth={LINE.hair}
              fill="none"
            />
            <Text x={codesX!} y={y} voice={rejected ? 'ink2' : 'ink'} struck={rejected}>
              {date.lab_code}
            </Text>
            {doubtful.has(date.lab_code) ? (
              <CautionMark x={codesX! + textWidth(date.lab_code) + 7} y={y} />
            ) : null}
          </g>
        );
      })}
    </g>
  );
}

/** A band down the page: 95 % with dotted edges, 68 % darker, the median bold. */
function Band({ model, time, depth }: { model: HoleHistory; time: Scale; depth: Scale }) {
  const ink = useInk();
  const { lower68, upper68, lower95, upper95, median } = model.age_cal_bp;
  const isSettled = model.diagnostics.converged;
  const edge = (ages: Float64Array): [number, number][] =>
    Array.from(model.depth_m, (d, i) => [time(ages[i]!), depth(d)]);
  const area = (low: Float64Array, high: Float64Array): string =>
    `${polyline([...edge(low), ...edge(high).reverse()])}Z`;
  return (
    <g fill="none">
      <path d={area(lower95, upper95)} fill={isSettled ? ink.leaf : ink.paper} />
      <path d={area(lower68, upper68)} fill={isSettled ? ink.rule : ink.paper} />
      {isSettled ? null : (
        <Hatching
          id="age-depth-unsettled"
          d={area(lower95, upper95)}
          x1={time(time.from)}
          x2={time(time.to)}
          y1={depth(0)}
          y2={depth(depth.to)}
        />
      )}
      <Edges d={polyline(edge(lower95)) + polyline(edge(upper95))} />
      <path d={polyline(edge(median))} stroke={ink.ink} strokeWidth={LINE.bold} strokeLinejoin="round" />
    </g>
  );
}

/** Of a 95 % band. */
function Edges({ d, fill }: { d: string; fill?: 'none' }) {
  const ink = useInk();
  return <path d={d} stroke={ink.ink} strokeWidth={LINE.edge} {...DOTTED} fill={fill} />;
}

function Accumulation({ model, x, depth }: { model: HoleHistory; x: number; depth: Scale }) {
  const ink = useInk();
  const { lower95, upper95, median } = model.accumulation_mm_yr;
  // The band may reach far where nothing was dated; the scale follows the medians.
  const most = 2.2 * Math.max(0.01, ...median);
  const rate = scale(0, most, x, x + RATE);
  const clipped = (values: Float64Array): [number, number][] =>
    Array.from(model.depth_m, (d, i) => [rate(Math.min(most, Math.max(0, values[i]!))), depth(d)]);
  return (
    <Track across={rate} depth={depth} first="built up" second="mm/yr" least={9} room={22}>
      <path d={`${polyline([...clipped(lower95), ...clipped(upper95).reverse()])}Z`} fill={ink.leaf} />
      <Edges d={polyline(clipped(lower95)) + polyline(clipped(upper95))} fill="none" />
      <path d={polyline(clipped(median))} stroke={ink.ink} strokeWidth={LINE.bold} fill="none" />
    </Track>
  );
}
