/** Calibrated ages of all dated holes against one scale of elevation, so that each hole is compared with the next. */
import type { CorrelationResult, Results } from '@stillstand/campaign/results';
import {
  horizontal,
  LINE,
  multiples,
  polyline,
  Ruling,
  type Scale,
  scale,
  staffStep,
  Text,
  UprightStaff,
  useInk,
} from '@stillstand/output/drawing';
import { counted } from '@stillstand/output/words';
import {
  type AcrossLayout,
  type AgePanel,
  acrossLayout,
  BETWEEN,
  HEAD,
  LEFT,
  TIME_LABELS,
} from './across/layout.ts';
import { Panel } from './across/panel.tsx';
import { ageWarnings, yearsOf } from './chronology.ts';
import { AgeLegend, ageLegend, ageLegendHeight } from './dates/legend.tsx';
import { drawn, type Figure, type FigureOptions, innerWidth, narrowness, type Warning } from './figure.tsx';
import { tieDashes } from './section/ties.tsx';

/** Ages across the holes, two columns wide. */
export function agesAcrossFigure(results: Results, options: FigureOptions = {}): Figure {
  const inner = innerWidth('two', options);
  const layout = acrossLayout(results, inner);
  const { panels, rows, height } = layout;
  const dates = panels.flatMap((panel) => panel.dates.map(({ date }) => date));
  const scales = Array.from({ length: rows }, (_, row) => {
    const top = row * (HEAD + height + BETWEEN) + HEAD;
    return scale(layout.top_m, layout.bottom_m, top, top + height);
  });
  const bottom = rows * (HEAD + height + BETWEEN) - BETWEEN;
  const legend = ageLegend(dates, inner);
  const drawing = (
    <g>
      {scales.map((y, row) => (
        <Elevation
          key={y(0)}
          y={y}
          right={Math.max(...panels.filter((p) => p.row === row).map((p) => p.x2))}
        />
      ))}
      <Horizons ties={results.correlations} panels={panels} scales={scales} />
      {panels.map((panel, i) => (
        <Panel key={panel.hung.hole.row_id} panel={panel} before={panels[i - 1]} y={scales[panel.row]!} />
      ))}
      <AgeLegend items={legend} y={bottom + 16} width={inner} />
    </g>
  );
  return drawn(
    {
      name: 'ages-across',
      width: 'two',
      title: `${results.name}, ages of neighbouring holes`,
      notes: [`${counted(panels.length, 'hole')}, ${counted(dates.length, 'date')}`],
      warnings: [
        ...noNeighbour(panels),
        ...orderAssumed(panels),
        ...ageWarnings(dates),
        ...narrowness(layout.least, inner, 'higher than a page'),
      ],
      caption: { head: 'Ages of neighbouring holes.', text: captionText(results, layout) },
      height: bottom + 20 + ageLegendHeight(legend),
    },
    drawing,
    options,
  );
}

function noNeighbour(panels: readonly AgePanel[]): Warning[] {
  if (panels.length > 1) return [];
  return [
    {
      kind: 'caution',
      text: 'Fewer than two holes have an age in use at a known elevation: no neighbour to compare with',
    },
  ];
}

function orderAssumed(panels: readonly AgePanel[]): Warning[] {
  if (panels.every(({ hung }) => hung.hole.section_m !== null)) return [];
  return [{ kind: 'assumed', text: 'Order of the holes assumed: not every hole has a position' }];
}

function captionText(results: Results, { panels }: AcrossLayout): string {
  const dates = panels.flatMap((panel) => panel.dates);
  const far = dates.filter(({ isFar }) => isFar).length;
  return [
    `One panel to a hole, in the order of the section, from its ground to its foot; elevations above ${results.datum.label} and ages in cal BP are the same in all.`,
    `Each density${yearsOf(dates.map(({ date }) => date))} stands on the elevation of its sample, whose 95 % is the upright bar at the median.`,
    'Bars with ends are the 95.4 % ranges of the ages in use in the hole before, at their own elevation.',
    withoutAge(results, panels),
    far === 0 ? '' : `${counted(far, 'age lies', 'ages lie')} beyond the axis: an arrow at its edge.`,
    horizonsOf(results.correlations, panels).length === 0
      ? ''
      : 'Lines across: contacts correlated between neighbours, line certain, dashes probable or not stated, dots possible.',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

/** Dated holes that have no panel: all their ages are rejected, or lie at no known elevation. */
function withoutAge({ dates }: Results, panels: readonly AgePanel[]): string {
  const shown = new Set(panels.map(({ hung }) => hung.hole.hole));
  const holes = new Set(dates.flatMap(({ hole }) => (hole === null || shown.has(hole) ? [] : [hole])));
  return holes.size === 0
    ? ''
    : `Left out, without an age in use at a known elevation: ${[...holes].join(', ')}.`;
}

/** The staff at the left of a row, and its labelled steps across all its panels. */
function Elevation({ y, right }: { y: Scale; right: number }) {
  const step = staffStep(y.k, 12, 10);
  return (
    <g>
      <Text x={0} y={y(y.from) - HEAD + 8} weight={600}>
        elevation
      </Text>
      <Text x={0} y={y(y.from) - HEAD + 16.5} voice="ink2">
        m
      </Text>
      <Text x={LEFT - 5} y={y(y.from) - TIME_LABELS} anchor="end" voice="ink2">
        cal BP
      </Text>
      <Ruling at={multiples(y.to, y.from, step.step * step.every)} d={(m) => horizontal(LEFT, right, y(m))} />
      <UprightStaff x={24} scale={y} low={y.to} high={y.from} sign {...step} />
    </g>
  );
}

interface Horizon {
  tie: CorrelationResult;
  left: { panel: AgePanel; elevation_m: number };
  right: { panel: AgePanel; elevation_m: number };
}

/** Correlations of holes that stand next to each other. */
function horizonsOf(ties: readonly CorrelationResult[], panels: readonly AgePanel[]): Horizon[] {
  const baseAt = (hole: string, unit: string) => {
    const i = panels.findIndex(({ hung }) => hung.hole.hole === hole);
    const panel = panels[i];
    const base = panel?.hung.hole.units.find(({ row_id }) => row_id === unit);
    if (panel === undefined || base === undefined) return null;
    return { i, panel, elevation_m: panel.hung.ground_m - base.depth_bottom_m.value };
  };
  return ties.flatMap((tie) => {
    const a = baseAt(tie.hole_a, tie.unit_a_row_id);
    const b = baseAt(tie.hole_b, tie.unit_b_row_id);
    if (a === null || b === null || Math.abs(a.i - b.i) !== 1) return [];
    return [a.i < b.i ? { tie, left: a, right: b } : { tie, left: b, right: a }];
  });
}

/** Level across each of the two holes, straight between them; where a row ends between them, to its end. */
function Horizons({
  ties,
  panels,
  scales,
}: {
  ties: readonly CorrelationResult[];
  panels: readonly AgePanel[];
  scales: readonly Scale[];
}) {
  const ink = useInk();
  const horizons = horizonsOf(ties, panels);
  if (horizons.length === 0) return null;
  return (
    <g id="across-horizons" stroke={ink.ink2} strokeWidth={LINE.edge} strokeLinecap="round" fill="none">
      {horizons.map(({ tie, left, right }) => {
        const [a, b] = [left, right].map(({ panel, elevation_m }) => {
          const at = scales[panel.row]!(elevation_m);
          return [
            [panel.x1, at],
            [panel.x2, at],
          ] as [number, number][];
        });
        const d = left.panel.row === right.panel.row ? polyline([...a!, ...b!]) : polyline(a!) + polyline(b!);
        return <path key={tie.row_id} d={d} strokeDasharray={tieDashes(tie.confidence)} />;
      })}
    </g>
  );
}
