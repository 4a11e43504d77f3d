/** All holes hung at elevation along the section, with the ground between them, their ages, and what is correlated between them. */
import { isGivenUp } from '@stillstand/campaign/holes';
import type { Results } from '@stillstand/campaign/results';
import { scale, staffStep, Text, UprightStaff } from '@stillstand/output/drawing';
import { counted, printed } from '@stillstand/output/words';
import { epochInWords, yearsOf } from './chronology.ts';
import { drawn, type Figure, type FigureOptions, innerWidth, narrowness, type Warning } from './figure.tsx';
import { noPatternText } from './no-pattern.ts';
import { AgeList, Ages, ageList, ageListHeight, ageRects } from './section/ages.tsx';
import { Distance, roomOfLeads, scaleAlong } from './section/along.tsx';
import { GroundLine, groundLine } from './section/ground.tsx';
import { SectionLog } from './section/hung-column.tsx';
import { type SectionLayout, type Stand, sectionLayout } from './section/layout.ts';
import {
  HoleNames,
  heightOfRows,
  leastOfRows,
  namesInRows,
  namesOverHoles,
  nameWords,
  type PlacedName,
  replacedBy,
  rowsOfNames,
} from './section/names.tsx';
import { keyHeight, keyRows, SedimentKey, sedimentsOf } from './section/sediment-key.tsx';
import { Ties } from './section/ties.tsx';
import { Zero } from './section/zero.tsx';

const LEFT = 40;
/** For names over the highest hole, points. */
const HEAD = 34;

/** Section through all holes, two columns wide. */
export function sectionFigure(results: Results, options: FigureOptions = {}): Figure {
  const inner = innerWidth('two', options);
  const layout = sectionLayout(results, LEFT, inner);
  const { stands, distance } = layout;
  const words = (stand: Stand): string[] => nameWords(results, stand);
  // Where a name has no place over its hole, all stand in rows over the section.
  const asHung = (top: number) => scale(layout.top_m, layout.bottom_m, top, top + layout.height);
  const ground = groundLine(stands, asHung(0), LEFT, inner);
  const over = namesOverHoles(stands, words, asHung(0), ground, -HEAD, inner);
  const inRows = namesInRows(stands, 0, LEFT, inner, () => 0);
  const head = over === null ? 10 + heightOfRows(rowsOfNames(inRows)) : HEAD;
  const y = asHung(head);
  const drawnGround = groundLine(stands, y, LEFT, inner);
  const names =
    over === null
      ? namesInRows(stands, 8, LEFT, inner, (stand) => y(stand.ground_m))
      : (namesOverHoles(stands, words, y, drawnGround, 0, inner) ?? []);
  const bottom = head + layout.height;
  const step = staffStep(y.k, 12, 10);
  const staffY = bottom + roomOfLeads(layout);
  const key = keyRows(sedimentsOf(stands), inner);
  const keyY = staffY + (distance === null ? 22 : 26);
  const list = layout.ages === 'numbered' ? ageList(stands, inner) : null;
  const listY = keyY + keyHeight(key) + 8;
  const along = scaleAlong(layout, y);

  const drawing = (
    <g>
      <Text x={0} y={7} weight={600}>
        elevation
      </Text>
      <Text x={0} y={15.5} voice="ink2">
        m
      </Text>
      <Zero
        y={y}
        label={results.datum.label}
        stands={stands}
        ground={drawnGround}
        left={LEFT}
        right={inner}
      />
      <Ties
        ties={results.correlations}
        stands={stands}
        y={y}
        written={stands.flatMap((stand) =>
          ageRects({ stand, y, ground: drawnGround, shown: layout.ages, bottom }),
        )}
      />
      <GroundLine ground={drawnGround} />
      {stands.map((stand, i) => (
        <SectionLog
          key={stand.hole.row_id}
          stand={stand}
          y={y}
          number={i + 1}
          limit={stands[i + 1]?.x ?? inner}
        />
      ))}
      {stands.map((stand) => (
        <Ages
          key={stand.hole.row_id}
          stand={stand}
          y={y}
          ground={drawnGround}
          shown={layout.ages}
          bottom={bottom}
        />
      ))}
      <HoleNames names={names} />
      <g id="section-elevation">
        <UprightStaff x={24} scale={y} low={layout.bottom_m} high={layout.top_m} sign {...step} />
      </g>
      {distance === null ? null : <Distance layout={layout} distance={distance} y={staffY} bottom={bottom} />}
      {along === '' ? null : (
        <Text x={inner} y={keyY - 6} anchor="end" voice="ink2">
          {along}
        </Text>
      )}
      <SedimentKey items={key} y={keyY} width={inner} />
      {list === null ? null : <AgeList list={list} x={0} y={listY} />}
    </g>
  );
  return drawn(
    {
      name: 'section',
      width: 'two',
      title: `${results.name}, section`,
      notes: [counted(stands.length, 'hole')],
      warnings: [...warnings(layout, stands), ...narrow(layout, names, inner)],
      caption: {
        head: 'Section through all holes.',
        text: captionText(results, layout, options),
      },
      height: keyY + keyHeight(key) + 2 + (list === null ? 0 : ageListHeight(list.rows)),
    },
    drawing,
    options,
  );
}

/** What has no room at the width that was chosen. */
function narrow(layout: SectionLayout, names: readonly PlacedName[], inner: number): Warning[] {
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

const AGES_SHOWN = {
  beside: 'Next to them, at each dated sample, median ages in cal BP',
  numbered:
    'Dated samples are lozenges on their hole, numbered from left to right and down; the median ages stand under the section',
  marks: 'Dated samples are lozenges on their hole; their ages are in the figure and the table of dates',
} as const;

function captionText(results: Results, layout: SectionLayout, { grey = false }: FigureOptions): string {
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
  const isUnsaid = ties.some(({ confidence }) => confidence === null);
  return `Contacts correlated between holes: line certain, dashes probable${isUnsaid ? ' or not stated' : ''}, dots possible.`;
}

function fateText(results: Results, { hole, ground_m, bottom_m }: Stand): string {
  const by = replacedBy(results, hole.hole);
  const left = hole.left_in_ground === null ? '' : `; left in the ground: ${hole.left_in_ground}`;
  const deep = `; ${printed(ground_m - bottom_m, 2)} m deep`;
  return `${hole.hole} was ${hole.state}${left}${deep}${by === null ? '' : `, replaced by ${by}`}.`;
}
