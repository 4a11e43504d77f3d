/** Holes along a line with the units drawn between them, their ages, and what is correlated. */
import { isGivenUp } from '@stillstand/campaign/holes';
import type { Results, SectionResult } from '@stillstand/campaign/results';
import { Text } from '@stillstand/output/drawing';
import { counted, printed } from '@stillstand/output/words';
import { epochInWords, yearsOf } from './chronology.ts';
import {
  drawn,
  type Figure,
  type FigureOptions,
  innerWidth,
  narrowness,
  plainName,
  type Warning,
} from './figure.tsx';
import { noPatternText } from './no-pattern.ts';
import { AgeList, ageList, ageListHeight } from './section/ages.tsx';
import { surenessOf } from './section/contacts.tsx';
import { LEFT, type PlacedSection, placedSection, SectionDrawing } from './section/drawing.tsx';
import { blockOfStaff } from './section/hung-column.tsx';
import type { SectionLayout, Stand } from './section/layout.ts';
import { LineKey, lineKeyHeight, lineKeyRows, signsOfSection } from './section/line-key.tsx';
import { leastOfRows, type PlacedName, replacedBy } from './section/names.tsx';
import { keyHeight, keyRows, SedimentKey, sedimentsOf } from './section/sediment-key.tsx';

/** The section of one line, two columns wide: the first of the results, if none is named. */
export function sectionFigure(
  results: Results,
  options: FigureOptions = {},
  section: SectionResult | null = results.sections[0] ?? null,
): Figure {
  const inner = innerWidth('two', options);
  const placed = placedSection(results, inner, { section });
  const { layout, names, height: keyY } = placed;
  const { stands } = layout;
  const key = keyRows(sedimentsOf(stands), inner);
  const lines = lineKeyRows(signsOfSection(placed, results.correlations), inner);
  const linesY = keyY + keyHeight(key) + (lines.length > 0 ? 2 : 0);
  const underKeys = linesY + lineKeyHeight(lines);
  const list = layout.ages === 'numbered' ? ageList(stands, inner) : null;
  const line = section?.line ?? null;
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
      <LineKey items={lines} y={linesY} />
      {list === null ? null : <AgeList list={list} x={0} y={underKeys + 8} />}
    </g>
  );
  return drawn(
    {
      name: line === null ? 'section' : `section-${plainName(line)}`,
      width: 'two',
      title: `${results.name}, section${line === null ? '' : ` ${line}`}`,
      notes: [counted(stands.length, 'hole')],
      warnings: [...sectionWarnings(layout), ...sectionNarrow(layout, names, inner)],
      caption: {
        head: line === null ? 'Section through all holes.' : `Section ${line}.`,
        text: sectionCaption(results, placed, options),
      },
      height: underKeys + 2 + (list === null ? 0 : ageListHeight(list.rows)),
    },
    drawing,
    options,
  );
}

/** One figure to a section line; without any, of all holes in their order. */
export const sectionFigures = (results: Results, options: FigureOptions): Figure[] =>
  (results.sections.length === 0 ? [null] : results.sections).map((section) =>
    sectionFigure(results, options, section),
  );

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
  beside: 'Next to the holes, at each dated sample, median ages in cal BP',
  numbered:
    'Dated samples are lozenges on their hole, numbered from left to right and down; the median ages stand under the section',
  marks: 'Dated samples are lozenges on their hole; their ages are in the figure and the table of dates',
} as const;

/** How it is read, after its head. */
export function sectionCaption(
  results: Results,
  { layout, y, bodies, contacts }: PlacedSection,
  { grey = false }: FigureOptions,
): string {
  const { stands, section } = layout;
  const dates = stands.flatMap((s) => s.dates.map((d) => d.date));
  const epoch = epochInWords(results.datum);
  const isGuessed = contacts.some(({ contact }) => surenessOf(contact) === 'possible');
  return [
    `Holes stand at their elevation, black and white by ${blockOfStaff(y) === 1 ? 'metre' : `${blockOfStaff(y)} m`} of depth; bold, the ground${section?.is_profiled === true ? ' from its profile' : ', straight between the holes'}; dashed, zero: ${results.datum.label}${epoch === null ? '' : `, ${epoch}`}.`,
    bodies.length === 0
      ? ''
      : 'Units are drawn between the holes along correlated contacts; a unit of one hole alone ends between the two. What no hole reached is left blank.',
    contacts.some(({ contact }) => contact.is_erosional) ? 'Wave: erosional.' : '',
    isGuessed || (section?.queries.length ?? 0) > 0
      ? 'Dotted contacts and question marks: not known, drawn half way.'
      : '',
    (section?.time_lines.length ?? 0) > 0 ? 'Beads: lines of one age, cal BP.' : '',
    layout.distance !== null && !layout.toScale
      ? 'Holes too near each other are drawn apart, so that the section is not to scale along the line; lines lead to their place on the distance staff.'
      : '',
    offsetText(section),
    dates.length > 0
      ? `${AGES_SHOWN[layout.ages]}${yearsOf(dates)}; ${layout.ages === 'marks' ? 'rejected ones open' : `marine ones ${grey ? 'in italics ' : ''}on a wave, rejected ones open and struck`}.`
      : '',
    noPatternText(stands.flatMap((s) => s.hole.units)),
    tiesText(results, stands),
    ...stands.filter((s) => isGivenUp(s.hole.state)).map((s) => fateText(results, s)),
    ...layout.replaced.map(({ hole, by }) => `${hole} was replaced by ${by} and is not drawn.`),
  ]
    .filter((part) => part !== '')
    .join(' ');
}

/** How far holes were moved onto the line, where it is more than a pace, m. */
const PACE_M = 1;
function offsetText(section: SectionResult | null): string {
  const offsets = (section?.holes ?? []).map(({ offset_m }) => Math.abs(offset_m ?? 0));
  const most = Math.max(0, ...offsets);
  return most < PACE_M ? '' : `Holes are projected onto the line from up to ${printed(most, 0)} m.`;
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
