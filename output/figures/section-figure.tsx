/** All holes hung at elevation along the section, with the ground between them, ages beside, and ties if there are any. */
import { isGivenUp } from '@stillstand/campaign/holes';
import type { Results } from '@stillstand/campaign/results';
import {
  box,
  DASHED,
  horizontal,
  inksFor,
  LINE,
  LyingStaff,
  Pattern,
  polyline,
  type Scale,
  type Sediment,
  scale,
  sedimentOfUnit,
  shortened,
  staffStep,
  Text,
  textWidth,
  UprightStaff,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { counted, printed } from '@stillstand/output/words';
import { yearsOf } from './chronology.ts';
import { drawn, type Figure, type FigureOptions, innerWidth, narrowness, type Warning } from './figure.tsx';
import { noPatternText } from './no-pattern.ts';
import { HoleHead, SectionLog, unitWidth } from './section/hung-column.tsx';
import { AGES, AXIS, type SectionLayout, type Stand, sectionLayout } from './section/layout.ts';

/** A tie between the bases of two units, as drawn by hand or found by correlation. */
export interface SectionTie {
  hole_a: string;
  /** Unit of that hole whose base is tied. */
  unit_a: string;
  hole_b: string;
  unit_b: string;
  confidence: 'certain' | 'probable' | 'possible' | null;
}

export interface SectionOptions extends FigureOptions {
  ties?: readonly SectionTie[];
}

const LEFT = 40;
const HEAD = 34;
const LEAST_HEIGHT = 200;
const MOST_HEIGHT = 400;

/** Section through all holes, two columns wide. */
export function sectionFigure(results: Results, options: SectionOptions = {}): Figure {
  const inner = innerWidth('two', options);
  const layout = sectionLayout(results, LEFT, inner);
  const { stands, distance } = layout;
  const span = layout.top_m - layout.bottom_m;
  const most = Math.max(0, ...stands.map((s) => s.dates.length));
  const height = Math.min(MOST_HEIGHT, Math.max(LEAST_HEIGHT, span * 18, most * 7));
  const y = scale(layout.top_m, layout.bottom_m, HEAD, HEAD + height);
  const bottom = HEAD + height;
  const step = staffStep(y.k, 12, 10);
  const staffY = bottom + 30;
  const sediments = used(stands);
  const legend = legendRows(sediments, inner);
  const legendY = staffY + (distance === null ? -8 : 26);
  const exaggeration = distance === null ? null : Math.abs(y.k / distance.k);

  const drawing = (
    <g>
      <Text x={0} y={7} weight={600}>
        elevation
      </Text>
      <Text x={0} y={15.5} voice="ink2">
        m
      </Text>
      <SeaLevel y={y} label={results.datum.label} stands={stands} right={inner} />
      <Ties ties={options.ties ?? []} stands={stands} y={y} />
      <GroundLine stands={stands} y={y} right={inner} />
      {stands.map((stand, i) => (
        <SectionLog key={stand.hole.row_id} stand={stand} y={y} number={i + 1} limit={inner} />
      ))}
      {stands.map((stand, i) => (
        <HoleHead
          key={stand.hole.row_id}
          stand={stand}
          y={y(stand.ground_m) - 5}
          room={(stands[i + 1]?.x ?? inner + 2) - stand.x - 2}
          replacedBy={results.holes.find((h) => h.replaces === stand.hole.hole)?.hole ?? null}
        />
      ))}
      <UprightStaff x={24} scale={y} low={layout.bottom_m} high={layout.top_m} sign {...step} />
      {distance === null ? null : <Distance layout={layout} distance={distance} y={staffY} bottom={bottom} />}
      {legend.map((item, i) => (
        <g key={item.sediment.name}>
          <Pattern
            sediment={item.sediment}
            at={{ x1: item.x, y1: legendY + item.row * 13, x2: item.x + 22, y2: legendY + item.row * 13 + 9 }}
            id={`section-legend-${i + 1}`}
            seed={900 + i}
          />
          <path
            d={box(item.x, legendY + item.row * 13, item.x + 22, legendY + item.row * 13 + 9)}
            fill="none"
            stroke={inksFor(options).ink}
            strokeWidth={LINE.fine}
          />
          <Text x={item.x + 26} y={legendY + item.row * 13 + 7}>
            {shortened(item.sediment.name, inner - 26)}
          </Text>
        </g>
      ))}
    </g>
  );
  const rows = legend.length === 0 ? 0 : legend.at(-1)!.row + 1;
  return drawn(
    {
      name: 'section',
      width: 'two',
      title: `${results.name}, section`,
      notes: [
        counted(stands.length, 'hole'),
        exaggeration === null
          ? 'spacing not to scale'
          : `vertical exaggeration ${printed(exaggeration, exaggeration < 10 ? 1 : 0)}`,
      ],
      warnings: [...warnings(layout, stands), ...narrow(stands, inner)],
      caption: {
        head: 'Section through all holes.',
        text: captionText(results, stands, layout, options),
      },
      height: legendY + rows * 13 + 2,
    },
    drawing,
    options,
  );
}

/** Least width of a column next to its ages, points. */
const COLUMN = 9;

/** Columns that crowd at the width that was chosen. */
function narrow(stands: readonly Stand[], inner: number): Warning[] {
  const need = stands.map((stand) => COLUMN + (stand.dates.length > 0 ? AGES : 6));
  return narrowness(LEFT + need.reduce((sum, each) => sum + each, 0), inner, 'holes and ages crowd');
}

function warnings(layout: SectionLayout, stands: readonly Stand[]): Warning[] {
  const out: Warning[] = [];
  if (stands.length === 0) out.push({ kind: 'caution', text: 'No hole has a height to be hung at' });
  const { missing } = layout;
  if (missing.length > 0) {
    out.push({
      kind: 'caution',
      text: `Not drawn: ${missing.map((m) => `${m.hole} (${m.why})`).join(', ')}`,
    });
  }
  if (layout.distance === null && stands.length > 1) {
    out.push({
      kind: 'assumed',
      text: 'Order and spacing of the holes assumed: not every hole has a position',
    });
  }
  return out;
}

function captionText(
  results: Results,
  stands: readonly Stand[],
  layout: SectionLayout,
  { ties = [], grey = false }: SectionOptions,
): string {
  const lost = stands.filter((s) => isGivenUp(s.hole.state));
  const dates = stands.flatMap((s) => s.dates.map((d) => d.date));
  const moved = layout.distance !== null && stands.some((s) => Math.abs(s.x + s.width * AXIS - s.at!) > 2);
  return [
    `Holes hang at their elevation, the ground drawn between them; dashed, zero: ${results.datum.label}${results.datum.epoch === null ? '' : `, ${results.datum.epoch}`}.`,
    'Width of a column follows grain size; contacts: line sharp, dashes gradational, wave erosional, dots uncertain.',
    moved
      ? 'Holes too near each other are drawn apart; lines lead to their place on the distance staff.'
      : '',
    dates.length > 0
      ? `Next to them, at each dated sample, median ages in cal BP${yearsOf(dates)}; marine ones ${grey ? 'in italics' : 'in the sea’s colour'}, rejected ones open and struck.`
      : '',
    noPatternText(stands.flatMap((s) => s.hole.units)),
    ties.length > 0 ? 'Ties between contacts: line sure, dashes likely, dots possible.' : '',
    ...lost.map(
      (s) =>
        `${s.hole.hole} was ${s.hole.state}${s.hole.left_in_ground === null ? '' : `; left in the ground: ${s.hole.left_in_ground}`}.`,
    ),
  ]
    .filter((part) => part !== '')
    .join(' ');
}

function SeaLevel({
  y,
  label,
  stands,
  right,
}: {
  y: Scale;
  label: string;
  stands: readonly Stand[];
  right: number;
}) {
  const ink = useInk();
  // The label stands in the widest gap between columns.
  const ends = [LEFT - 6, ...stands.map((s) => s.x + s.width + (s.dates.length > 0 ? AGES : 4))];
  const starts = [...stands.map((s) => s.x), right];
  const gaps = ends.map((end, i) => ({ end, start: starts[i]! }));
  const widest = gaps.reduce((a, b) => (b.start - b.end > a.start - a.end ? b : a));
  return (
    <g>
      <path
        d={horizontal(30, right, y(0))}
        stroke={ink.sea}
        strokeWidth={LINE.edge}
        {...DASHED}
        fill="none"
      />
      {widest.start - widest.end < textWidth(label, { face: 'water', size: 7.5 }) + 4 ? null : (
        <Text
          x={(widest.end + widest.start) / 2}
          y={y(0) + 7.4}
          anchor="middle"
          face="water"
          size={7.5}
          voice="sea"
          halo
        >
          {label}
        </Text>
      )}
    </g>
  );
}

function GroundLine({ stands, y, right }: { stands: readonly Stand[]; y: Scale; right: number }) {
  const ink = useInk();
  const first = stands[0];
  const last = stands.at(-1);
  if (first === undefined || last === undefined) return null;
  const points: [number, number][] = [
    [Math.max(LEFT - 8, first.x - 10), y(first.ground_m)],
    ...stands.flatMap((s): [number, number][] => [
      [s.x - 2, y(s.ground_m)],
      [s.x + s.width * 0.8, y(s.ground_m)],
    ]),
    [Math.min(right, last.x + last.width + 26), y(last.ground_m)],
  ];
  return (
    <path d={polyline(points)} stroke={ink.ink} strokeWidth={LINE.page} strokeLinejoin="round" fill="none" />
  );
}

const DASHES = { certain: undefined, probable: '4 2.4', possible: '0.01 2.2' } as const;

function Ties({ ties, stands, y }: { ties: readonly SectionTie[]; stands: readonly Stand[]; y: Scale }) {
  const ink = useInk();
  const base = (label: string, contact: string) => {
    const stand = stands.find((s) => s.hole.hole === label);
    const unit = stand?.hole.units.find((u) => u.unit === contact);
    if (stand === undefined || unit === undefined) return null;
    return {
      stand,
      y: y(stand.ground_m - unit.depth_bottom_m.value),
      width: unitWidth(sedimentOfUnit(unit).grain, stand.width),
    };
  };
  return (
    <g fill="none" stroke={ink.ink2} strokeWidth={LINE.edge} strokeLinecap="round">
      {ties.map((tie) => {
        const a = base(tie.hole_a, tie.unit_a);
        const b = base(tie.hole_b, tie.unit_b);
        if (a === null || b === null) return null;
        const [l, r] = a.stand.x <= b.stand.x ? [a, b] : [b, a];
        return (
          <path
            key={`${tie.hole_a} ${tie.unit_a} ${tie.hole_b} ${tie.unit_b}`}
            d={polyline([
              [l.stand.x + l.width, l.y],
              [r.stand.x, r.y],
            ])}
            strokeDasharray={DASHES[tie.confidence ?? 'probable']}
          />
        );
      })}
    </g>
  );
}

/** The distance staff, and lines from holes that were moved apart to where they are. */
function Distance({
  layout,
  distance,
  y,
  bottom,
}: {
  layout: SectionLayout;
  distance: Scale;
  y: number;
  bottom: number;
}) {
  const ink = useInk();
  const step = staffStep(distance.k, 14, 26);
  return (
    <g>
      <path
        d={layout.stands
          .map((s) => {
            const x = s.x + s.width * AXIS;
            return polyline([
              [x, bottom + 13],
              [x, bottom + 16],
              [s.at!, y - 3],
              [s.at!, y],
            ]);
          })
          .join('')}
        stroke={ink.line}
        strokeWidth={LINE.fine}
        fill="none"
      />
      <path
        d={layout.stands.map((s) => vertical(s.at!, y - 2, y)).join('')}
        stroke={ink.ink}
        strokeWidth={LINE.bold}
        fill="none"
      />
      <LyingStaff y={y} scale={distance} low={distance.from} high={distance.to} labels="below" {...step} />
      <Text x={0} y={y + 3.6} voice="ink2">
        metres
      </Text>
      <Text x={0} y={y + 12} voice="ink2">
        along
      </Text>
    </g>
  );
}

function used(stands: readonly Stand[]): Sediment[] {
  const byName = new Map<string, Sediment>();
  for (const { hole } of stands) {
    for (const unit of hole.units) {
      const sediment = sedimentOfUnit(unit);
      byName.set(sediment.name, sediment);
    }
  }
  return [...byName.values()].sort((a, b) => b.grain - a.grain || (a.name < b.name ? -1 : 1));
}

function legendRows(
  sediments: readonly Sediment[],
  width: number,
): { sediment: Sediment; x: number; row: number }[] {
  let x = 0;
  let row = 0;
  return sediments.map((sediment) => {
    const room = 26 + Math.min(width - 26, textWidth(sediment.name)) + 14;
    if (x > 0 && x + room - 14 > width) {
      x = 0;
      row += 1;
    }
    const place = { sediment, x, row };
    x += room;
    return place;
  });
}
