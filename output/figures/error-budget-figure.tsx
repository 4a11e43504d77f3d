/** Where the error of one point comes from: its parts longest first, and their squares adding up to its own. */

import { type ErrorComponent, isAssumed, type PointResult, type Results } from '@stillstand/campaign/results';
import { capital } from '@stillstand/campaign/tables';
import {
  AssumedMark,
  box,
  firstLines,
  horizontal,
  LINE,
  LyingStaff,
  move,
  multiples,
  Ruling,
  r2,
  SharedMark,
  Span,
  scale,
  shortened,
  staffStep,
  Text,
  textWidth,
  useInk,
  vertical,
  wrapped,
} from '@stillstand/output/drawing';
import { decimalsDrawn, partName, printed, sharedThrough, signed } from '@stillstand/output/words';
import { power, square } from '@stillstand/science/base';
import { drawn, type Figure, type FigureOptions, innerWidth, plainName, type Warning } from './figure.tsx';

const ROW = 19.5;
const SOURCE_LEADING = 7.4;
const SQUARES = 46;
/** Where the numbers at the right end, from the right edge. */
const SHARE = 0;
const VALUE = 26;

/** Parts smaller than this share of the variance may miss from the sum without a warning. */
const TOLERANCE = 0.02;

interface Budget {
  point: PointResult;
  parts: ErrorComponent[];
  /** Root-sum-square of the parts, 1 sigma. */
  sum_m: number;
}

/** The error budget of one point, one column wide. Throws RangeError for a point the results do not have. */
export function errorBudgetFigure(results: Results, label: string, options: FigureOptions = {}): Figure {
  const point = results.points.find((p) => p.point === label);
  if (point === undefined) {
    throw new RangeError(`errorBudgetFigure: expected the label of a point, found ${label}`);
  }
  const parts = [...point.components].sort(
    (a, b) => b.sigma_m - a.sigma_m || (a.component < b.component ? -1 : 1),
  );
  const budget = { point, parts, sum_m: Math.sqrt(parts.reduce((sum, c) => sum + square(c.sigma_m), 0)) };
  const inner = innerWidth('one', options);
  const nameWidth = Math.min(104, Math.max(52, ...parts.map((c) => textWidth(nameOf(c)) + marksWidth(c))));
  const left = nameWidth + 6;
  const right = inner - VALUE - 24;
  const longest = Math.max(0.01, ...parts.map((c) => 2 * c.sigma_m));
  const length = scale(0, longest * 1.04, left, right);
  const step = staffStep(length.k, 9, 18);
  const top = 34;
  const sources = parts.map((c) => sourceLines(c, inner - 2));
  // A source of two lines pushes the parts below it down.
  const tops = sources.map((_, i) =>
    sources.slice(0, i).reduce((sum, lines) => sum + ROW + SOURCE_LEADING * (lines.length - 1), top),
  );
  const last = parts.length - 1;
  const bottom = last < 0 ? top + 2 : tops[last]! + ROW + SOURCE_LEADING * (sources[last]!.length - 1) + 2;
  const decimals = decimalsDrawn(2 * point.rsl_sigma_m);
  const squaresY = bottom + 16;

  const drawing = (
    <g>
      <SumOfHeights point={point} decimals={decimals} width={inner} />
      <Ruling
        at={multiples(0, longest * 1.04, step.step * step.every)}
        d={(m) => vertical(length(m), top, bottom)}
      />
      <LyingStaff y={top - 3.4} scale={length} low={0} high={longest * 1.04} labels="above" {...step} />
      <Text x={0} y={top - 6} voice="ink3">
        part of the error
      </Text>
      <Text x={inner - VALUE} y={top - 6} anchor="end" voice="ink3">
        ± m
      </Text>
      <Text x={inner - SHARE} y={top - 6} anchor="end" voice="ink3">
        share
      </Text>
      {parts.map((c, i) => (
        <Part
          key={`${c.component} ${c.shared_group ?? ''}`}
          part={c}
          y={tops[i]!}
          source={sources[i]!}
          nameWidth={nameWidth}
          from={left}
          to={length(2 * c.sigma_m)}
          right={inner}
          decimals={Math.max(2, decimals)}
          share={budget.sum_m > 0 ? square(c.sigma_m) / square(budget.sum_m) : 0}
        />
      ))}
      <Squares budget={budget} y={squaresY} width={inner} decimals={decimals} />
    </g>
  );
  const warnings = budgetWarnings(budget);
  return drawn(
    {
      name: `error-budget-${plainName(label)}`,
      width: 'one',
      title: `Error budget of ${label}`,
      notes: [],
      warnings,
      caption: { head: `Error of ${label}, part by part.`, text: captionText(budget) },
      height: squaresY + SQUARES + 14,
    },
    drawing,
    options,
  );
}

function budgetWarnings({ point, parts, sum_m }: Budget): Warning[] {
  const out: Warning[] = [];
  if (point.status === 'rejected') {
    out.push({ kind: 'caution', text: `Point rejected${point.reason === null ? '' : `: ${point.reason}`}` });
  }
  if (Math.abs(sum_m - point.rsl_sigma_m) > TOLERANCE * point.rsl_sigma_m + 0.0005) {
    out.push({
      kind: 'caution',
      text: `The parts add up to ±${printed(2 * sum_m, 3)} m, the point says ±${printed(2 * point.rsl_sigma_m, 3)} m`,
    });
  }
  const assumed = parts.filter(isAssumed).reduce((sum, c) => sum + square(c.sigma_m), 0);
  if (assumed > 0) {
    out.push({
      kind: 'assumed',
      text: `${printed((100 * assumed) / square(sum_m))} % of its variance assumed, not measured`,
    });
  }
  return out;
}

function captionText({ parts }: Budget): string {
  const shared = parts.some((c) => c.shared_group !== null);
  const uniform = parts.some((c) => c.shape === 'uniform');
  const oneSided = parts.some((c) => c.shape === 'one_sided');
  return [
    'Bars are 2 sd, longest first; the squares’ sides are in that proportion, so that their areas add up.',
    uniform ? 'Open bars: an even range.' : '',
    oneSided ? 'With a point: one-sided.' : '',
    shared ? 'Two links: shared with other points of the group named, so that it does not average out.' : '',
    parts.some(isAssumed) ? 'Broken ring: assumed.' : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

const nameOf = (c: ErrorComponent): string => capital(partName(c.component));
const marksWidth = (c: ErrorComponent): number => (c.shared_group === null ? 0 : 11) + (isAssumed(c) ? 8 : 0);

const RELATION = { index: '', terrestrial: 'sea was below ', marine: 'sea was above ' } as const;

/** The height as a sum: sample − reference water level = sea level. */
function SumOfHeights({ point, decimals, width }: { point: PointResult; decimals: number; width: number }) {
  const error = printed(2 * point.rsl_sigma_m, decimals);
  const sum = `${signed(point.elevation_m, decimals + 1)} sample − (${signed(point.reference_water_level_m, decimals + 1)}) ${point.kind === 'index' ? 'reference water level' : 'tide level'}`;
  const fits = wrapped(sum, width);
  return (
    <g>
      <Text x={0} y={6.5}>
        {RELATION[point.kind]}
        <Span weight={600}>{signed(point.rsl_m, decimals)}</Span>
        <Span weight={300} voice="ink2">
          {` ±${error}`}
        </Span>
        <Span voice="ink3"> m</Span>
      </Text>
      <Text x={0} y={15} voice="ink2">
        = {fits.length === 1 ? sum : shortened(sum, width - 8)}
      </Text>
    </g>
  );
}

/** Where a part comes from, and with whom it is shared: at most two lines. */
function sourceLines(part: ErrorComponent, width: number): string[] {
  const words =
    part.shared_group === null ? part.source : `shared through ${sharedThrough(part)}; ${part.source}`;
  return firstLines(wrapped(words, width), 2, width);
}

interface PartProps {
  part: ErrorComponent;
  source: readonly string[];
  y: number;
  nameWidth: number;
  from: number;
  to: number;
  right: number;
  share: number;
  decimals: number;
}

function Part({ part, source, y, nameWidth, from, to, right, share, decimals }: PartProps) {
  const ink = useInk();
  const middle = y + 6.5;
  const rounded = printed(2 * part.sigma_m, decimals);
  const least = printed(power(10, -decimals), decimals);
  const value = part.sigma_m > 0 && !/[1-9]/.test(rounded) ? `<${least}` : rounded;
  const name = shortened(nameOf(part), nameWidth - marksWidth(part));
  const end = Math.max(to, from + 0.8);
  const bar = { y1: middle - 3, y2: middle + 3 };
  const marksX = textWidth(name) + 3;
  return (
    <g>
      <Text x={0} y={middle + 2.4}>
        {name}
      </Text>
      {part.shared_group === null ? null : <SharedMark x={marksX + 4} y={middle} />}
      {isAssumed(part) ? (
        <AssumedMark x={marksX + 3 + (part.shared_group === null ? 0 : 10)} y={middle} />
      ) : null}
      {part.shape === 'uniform' ? (
        <path
          d={box(from + 0.4, bar.y1 + 0.4, end - 0.4, bar.y2 - 0.4)}
          fill={ink.paper}
          stroke={ink.ink}
          strokeWidth={0.8}
        />
      ) : (
        <path
          d={
            part.shape === 'one_sided'
              ? `${move(from, bar.y1)}H${r2(Math.max(from, end - 3))}L${r2(end)} ${r2(middle)}L${r2(Math.max(from, end - 3))} ${r2(bar.y2)}H${r2(from)}Z`
              : box(from, bar.y1, end, bar.y2)
          }
          fill={ink.ink}
        />
      )}
      <Text x={right - VALUE} y={middle + 2.4} anchor="end">
        {value}
      </Text>
      <Text x={right - SHARE} y={middle + 2.4} anchor="end" voice="ink2">
        {share < 0.01 ? '<1' : printed(100 * share)} %
      </Text>
      {source.map((line, i) => (
        <Text key={line} x={0} y={middle + 10.2 + i * SOURCE_LEADING} voice="ink3" halo>
          {line}
        </Text>
      ))}
      {isAssumed(part) ? (
        <path
          d={horizontal(right - VALUE - textWidth(value), right - VALUE, middle + 3.7)}
          stroke={ink.ink}
          strokeWidth={LINE.edge}
          strokeDasharray="1.8 1.2"
          fill="none"
        />
      ) : null}
    </g>
  );
}

/** Squares of the parts side by side, and the square they make together. */
function Squares({
  budget,
  y,
  width,
  decimals,
}: {
  budget: Budget;
  y: number;
  width: number;
  decimals: number;
}) {
  const ink = useInk();
  const { parts, sum_m, point } = budget;
  if (sum_m === 0) return null;
  const shown = parts.filter((c) => c.sigma_m > 0);
  const gap = 3;
  const equals = 22;
  // One scale for all squares: as wide as the row allows, no higher than its room.
  const sides = shown.reduce((sum, c) => sum + c.sigma_m, 0) + sum_m;
  const k = Math.min(SQUARES / sum_m, (width - equals - gap * (shown.length - 1)) / sides);
  const base = y + SQUARES;
  let x = 0;
  const squares = shown.map((part) => {
    const side = part.sigma_m * k;
    const square = { part, x, side };
    x += side + gap;
    return square;
  });
  const totalX = x - gap + equals;
  const total = sum_m * k;
  return (
    <g>
      <path d={horizontal(0, width, y - 7)} stroke={ink.ink} strokeWidth={LINE.bold} fill="none" />
      {squares.map(({ part, x: at, side }) => (
        <path
          key={`${part.component} ${part.shared_group ?? ''}`}
          d={box(at, base - side, at + side, base)}
          fill={part.shape === 'uniform' ? ink.paper : ink.ink}
          stroke={ink.ink}
          strokeWidth={LINE.edge}
        />
      ))}
      <path
        d={
          horizontal(totalX - equals / 2 - 4, totalX - equals / 2 + 4, base - 8) +
          horizontal(totalX - equals / 2 - 4, totalX - equals / 2 + 4, base - 4.5)
        }
        stroke={ink.ink}
        strokeWidth={LINE.bold}
        fill="none"
      />
      <path
        d={box(totalX, base - total, totalX + total, base)}
        fill={ink.seaWash2}
        stroke={ink.ink}
        strokeWidth={LINE.bold}
      />
      <Text x={Math.min(totalX + total / 2, width - 12)} y={base + 8.6} anchor="middle" weight={600}>
        ±{printed(2 * point.rsl_sigma_m, decimals)} m
      </Text>
    </g>
  );
}
