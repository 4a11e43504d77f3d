/** All holes hung at elevation along the section, with the ground between them, their ages, and what is correlated between them. */
import { isGivenUp } from '@stillstand/campaign/holes';
import type { Results } from '@stillstand/campaign/results';
import { Text } from '@stillstand/output/drawing';
import { counted, printed } from '@stillstand/output/words';
import { epochInWords, yearsOf } from './chronology.ts';
import { drawn, type Figure, type FigureOptions, innerWidth, narrowness, type Warning } from './figure.tsx';
import { noPatternText } from './no-pattern.ts';
import { AgeList, ageList, ageListHeight } from './section/ages.tsx';
import { LEFT, placedSection, SectionDrawing } from './section/drawing.tsx';
import type { SectionLayout, Stand } from './section/layout.ts';
import { leastOfRows, type PlacedName, replacedBy } from './section/names.tsx';
import { keyHeight, keyRows, SedimentKey, sedimentsOf } from './section/sediment-key.tsx';

/** Section through all holes, two columns wide. */
export function sectionFigure(results: Results, options: FigureOptions = {}): Figure {
  const inner = innerWidth('two', options);
  const placed = placedSection(results, inner);
  const { layout, names, height: keyY } = placed;
  const { stands } = layout;
  const key = keyRows(sedimentsOf(stands), inner);
  const list = layout.ages === 'numbered' ? ageList(stands, inner) : null;
  const drawing = (
    <g>
      <Text x={0} y={7} weight={600}>
        elevation
      </Text>
      <Text x={0} y={15.5} voice="ink2">
        m
      </Text>
      <SectionDrawing results={results} placed={placed} />
      <SedimentKey items={key} y={keyY} width={inner} />
      {list === null ? null : <AgeList list={list} x={0} y={keyY + keyHeight(key) + 8} />}
    </g>
  );
  return drawn(
    {
      name: 'section',
      width: 'two',
      title: `${results.name}, section`,
      notes: [counted(stands.length, 'hole')],
      warnings: [...sectionWarnings(layout), ...sectionNarrow(layout, names, inner)],
      caption: {
        head: 'Section through all holes.',
        text: sectionCaption(results, layout, options),
      },
      height: keyY + keyHeight(key) + 2 + (list === null ? 0 : ageListHeight(list.rows)),
    },
    drawing,
    options,
  );
}

/** What has no room at the width that was chosen. */
export function sectionNarrow(layout: SectionLayout, names: readonly PlacedName[], inner: number): Warning[] {
  const { stands, least } = layout;
  const crowd = LEFT + least > inner;
  const unnamed = stands.length > 0 && names.length === 0;
  if (!crowd && !unnamed) return [];
  const suffers = [
    ...(crowd ? ['holes crowd'] : []),
    ...(layout.ages === 'marks' && stands.some(({ dates }) => dates.length > 0)
      ? ['no ages are written']
      : []),
    ...(unnamed ? ['no holes are named'] : []),
  ];
  return narrowness(LEFT + Math.max(least, leastOfRows(stands)), inner, suffers.join(', '));
}

/** Holes that are not drawn, and an order that is not known. */
export function sectionWarnings(
  { stands, missing, distance }: SectionLayout,
  undrawn = 'Not drawn',
): Warning[] {
  const out: Warning[] = [];
  if (stands.length === 0) out.push({ kind: 'caution', text: 'No hole has a height to be hung at' });
  if (missing.length > 0) {
    out.push({
      kind: 'caution',
      text: `${undrawn}: ${missing.map((m) => `${m.hole} (${m.why})`).join(', ')}`,
    });
  }
  if (distance === null && stands.length > 1) {
    out.push({
      kind: 'assumed',
      text: 'Order and spacing of the holes assumed: not every hole has a position',
    });
  }
  return out;
}

const AGES_SHOWN = {
  beside: 'Next to them, at each dated sample, median ages in cal BP',
  numbered:
    'Dated samples are lozenges on their hole, numbered from left to right and down; the median ages stand under the section',
  marks: 'Dated samples are lozenges on their hole; their ages are in the figure and the table of dates',
} as const;

/** How it is read, after its head. */
export function sectionCaption(
  results: Results,
  layout: SectionLayout,
  { grey = false }: FigureOptions,
): string {
  const { stands } = layout;
  const dates = stands.flatMap((s) => s.dates.map((d) => d.date));
  const epoch = epochInWords(results.datum);
  return [
    `Holes hang at their elevation, the ground drawn between them; dashed, zero: ${results.datum.label}${epoch === null ? '' : `, ${epoch}`}.`,
    'Width of a column follows grain size; contacts: line sharp, dashes gradational, wave erosional, dots uncertain.',
    layout.distance !== null && !layout.toScale
      ? 'Holes too near each other are drawn apart, so that the section is not to scale along the line; lines lead to their place on the distance staff.'
      : '',
    dates.length > 0
      ? `${AGES_SHOWN[layout.ages]}${yearsOf(dates)}; ${layout.ages === 'marks' ? 'rejected ones open' : `marine ones ${grey ? 'in italics ' : ''}on a wave, rejected ones open and struck`}.`
      : '',
    noPatternText(stands.flatMap((s) => s.hole.units)),
    tiesText(results, stands),
    ...stands.filter((s) => isGivenUp(s.hole.state)).map((s) => fateText(results, s)),
  ]
    .filter((part) => part !== '')
    .join(' ');
}

/** How certain the correlations are that are drawn. */
function tiesText({ correlations }: Results, stands: readonly Stand[]): string {
  const holes = new Set(stands.map(({ hole }) => hole.hole));
  const ties = correlations.filter(({ hole_a, hole_b }) => holes.has(hole_a) && holes.has(hole_b));
  if (ties.length === 0) return '';
  const horizons = [...Map.groupBy(ties, ({ horizon }) => horizon?.toLowerCase()).values()].flatMap(
    ([first]) => first!.horizon ?? [],
  );
  const isUnsaid = ties.some(({ confidence }) => confidence === null);
  return `Contacts correlated between holes: line certain, dashes probable${isUnsaid ? ' or not stated' : ''}, dots possible.${horizons.length === 0 ? '' : ` Horizons named: ${horizons.join(', ')}.`}`;
}

function fateText(results: Results, { hole, ground_m, bottom_m }: Stand): string {
  const by = replacedBy(results, hole.hole);
  const left = hole.left_in_ground === null ? '' : `; left in the ground: ${hole.left_in_ground}`;
  const deep = `; ${printed(ground_m - bottom_m, 2)} m deep`;
  return `${hole.hole} was ${hole.state}${left}${deep}${by === null ? '' : `, replaced by ${by}`}.`;
}
