/** Ages against depth in one hole: every date at its depth, all of them together as a band, and the accumulation rate. */
import type { HoleHistory, HoleResult, Results } from '@stillstand/campaign/results';
import { counted, sharedErrorInWords } from '@stillstand/output/words';
import { AgeDepthDrawing } from './age-depth/drawing.tsx';
import { type AgeDepthLayout, ageDepthLayout } from './age-depth/layout.ts';
import { AgeDepthLegend, ageDepthLegend } from './age-depth/legend.tsx';
import type { PlacedDate } from './age-depth/placed.ts';
import { twoHistories } from './age-depth/two-histories.ts';
import { ageWarnings, yearsOf } from './chronology.ts';
import { ageLegendHeight } from './dates/legend.tsx';
import { diagnosticsInWords, notConverged } from './diagnostics.ts';
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

/** Ages against depth, two columns wide; the band only where the hole has one. RangeError for an unknown hole. */
export function ageDepthFigure(results: Results, label: string, options: FigureOptions = {}): Figure {
  const hole = holeOf(results, label, 'ageDepthFigure');
  const inner = innerWidth('two', options);
  const layout = ageDepthLayout(results, hole, { width: inner });
  const { history, dates } = layout;
  const legend = ageDepthLegend(layout);
  return drawn(
    {
      name: `age-depth-${plainName(label)}`,
      width: 'two',
      title: `Ages against depth, hole ${label}`,
      notes: notes(history, dates),
      warnings: [
        ...warnings(hole, layout),
        ...narrowness(
          layout.whole,
          inner,
          layout.codesX === null
            ? 'laboratory codes and the accumulation rate are left out'
            : 'the accumulation rate is left out',
        ),
      ],
      caption: { head: `Ages against depth in hole ${label}.`, text: captionText(layout) },
      height: layout.height + 16 + ageLegendHeight(legend),
    },
    <g>
      <AgeDepthDrawing layout={layout} id="age-depth" />
      <AgeDepthLegend items={legend} y={layout.height + 10} width={inner} />
    </g>,
    options,
  );
}

function notes(history: HoleHistory | null, dates: readonly PlacedDate[]): string[] {
  return [
    counted(dates.length, 'date'),
    ...(history?.diagnostics.converged === true
      ? [`converged: ${diagnosticsInWords(history.diagnostics)}`]
      : []),
  ];
}

function warnings(hole: HoleResult, { history, dates }: AgeDepthLayout): Warning[] {
  const doubtful = dates.filter(({ state }) => state === 'in doubt').map(({ date }) => date.lab_code);
  return [
    ...lostWarning(hole),
    ...ageWarnings(dates.map((d) => d.date)),
    ...(history === null || history.diagnostics.converged
      ? []
      : [{ kind: 'not_converged' as const, text: notConverged(history.diagnostics) }]),
    ...(history === null || history.modes.length < 2
      ? []
      : [{ kind: 'caution' as const, text: twoHistories(history) }]),
    ...(doubtful.length === 0
      ? []
      : [{ kind: 'caution' as const, text: `More likely an outlier than not: ${doubtful.join(', ')}` }]),
  ];
}

/** Clocks of the history that are not drawn here. */
const withLead = (profiles: readonly string[]): string =>
  profiles.length === 0 ? '' : ` and the lead-210 of profile ${profiles.join(', ')}`;

function captionText({ hole, history, dates, hiatuses, far }: AgeDepthLayout): string {
  return [
    `Densities: calibrated ages${yearsOf(dates.map((d) => d.date))}, each on the depth of its sample; the bar is the 95 % of that depth.`,
    history === null
      ? 'No age is modelled between the dates.'
      : `Band: age at each depth from all dates of the hole together${withLead(history.profiles)} (${history.modes.length < 2 ? '68 and 95 %, bold the median' : '95 %'}); any one date may be an outlier. Right: accumulation rate, hiatuses${history.beds.length > 0 ? ' and beds laid down at once' : ''} not counted.`,
    (history?.modes.length ?? 0) < 2
      ? ''
      : 'Two histories remain possible: bold the median of the likelier, dashed of the other, fine lines the 95 % of each.',
    dates.some((d) => d.state === 'in doubt')
      ? 'Hollow, with a triangle: a date in doubt, more likely an outlier than not.'
      : '',
    dates.some((d) => d.state === 'aside') ? 'Hollow: a maximum or minimum age, not used here.' : '',
    dates.some((d) => d.state === 'rejected') ? 'Rejected dates are dotted and struck, and not used.' : '',
    far.size === 0
      ? ''
      : `${counted(far.size, 'age lies', 'ages lie')} beyond the axis: an arrow at its edge, with the median.`,
    hiatuses.length > 0 ? 'Wave: erosional contact with the median length of its hiatus.' : '',
    (history?.beds.length ?? 0) > 0
      ? `Laid down at once: ${history!.beds.map(({ id }) => `unit ${id}`).join(', ')}; top and base are of one age.`
      : '',
    ...(history?.shared ?? []).map((error) => `${sharedErrorInWords(hole.hole, error)}.`),
    noPatternText(hole.units),
  ]
    .filter((part) => part !== '')
    .join(' ');
}
