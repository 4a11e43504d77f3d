/**
 * One hole on in-situ depth and elevation: the core as it came up, tied contact by contact to where it lay, the
 * column, what was seen, samples, ages and words.
 */
import type { Results } from '@stillstand/campaign/results';
import { coreSymbols, lossUnknown, scale, staffStep, UprightStaff } from '@stillstand/output/drawing';
import { counted, decimalsDrawn, printed, signed } from '@stillstand/output/words';
import { ageWarnings, assumedHole, holeTitle, yearsOf } from './chronology.ts';
import { CoreAsItCameUp } from './column/core-as-it-came-up.tsx';
import { CoreSymbolLane, CoreSymbolLegend, legendRows } from './column/core-symbol-lane.tsx';
import { Ground } from './column/ground.tsx';
import { Heads } from './column/heads.tsx';
import { type Lane, lanesOf, notDrawn } from './column/laboratory.ts';
import { LANE_GAP, LaboratoryLanes, LEAST_LANE, lanesCaption, lanesIn } from './column/laboratory-lanes.tsx';
import { type Column, gather, HEAD } from './column/lanes.ts';
import { agesFrom, SamplesAndAges } from './column/samples-and-ages.tsx';
import { Strips } from './column/strips.tsx';
import { UnitNumbers, Words, WordsBelowColumn, wordsBelow } from './column/words.tsx';
import {
  drawn,
  type Figure,
  type FigureOptions,
  innerWidth,
  narrowness,
  plainName,
  type Warning,
} from './figure.tsx';
import { lostWarning } from './hole-of.ts';
import { noPatternText } from './no-pattern.ts';

/** Of the ground drawn, points. */
const LEAST_HEIGHT = 240;
const MOST_HEIGHT = 470;

/** Column of one hole, two columns of a page wide. Throws RangeError for a hole the results do not have. */
export function graphicLog(results: Results, hole: string, options: FigureOptions = {}): Figure {
  const inner = innerWidth('two', options);
  const lab = laboratoryIn(gather(results, hole, inner, options), results, inner);
  const c = lab.column;
  const { lane } = c;
  // Twice as much room for a date as one line needs, where the page allows it.
  const rows = Math.max(c.dates.length * 20, c.units.length * 18, c.samples.length * 9);
  const height = Math.min(MOST_HEIGHT, Math.max(LEAST_HEIGHT, c.bottom_m * 28, rows + 12));
  const depth = scale(0, c.bottom_m, HEAD, HEAD + height);
  const ground = c.hole.ground_elevation_m?.value ?? null;
  const seen = [
    ...new Set(c.units.flatMap(({ unit }) => coreSymbols([...unit.structures, ...unit.fossils]))),
  ];
  const legend = lane.hasSeen ? legendRows(seen, inner) : [];
  const name = `column-${plainName(hole)}`;
  const below = wordsBelow(c, inner);
  const belowY = HEAD + height + (legend.length > 0 ? 22 + legend.length * 12 : 16);
  const warnings = [...columnWarnings(c), ...narrow(c, inner)];
  const step = staffStep(depth.k, 16, 10);

  const drawing = (
    <g>
      <Heads column={c} hasElevation={ground !== null} />
      {ground === null ? null : (
        <UprightStaff
          x={lane.elevationStaff}
          scale={scale(ground, ground - c.bottom_m, HEAD, HEAD + height)}
          low={ground - c.bottom_m}
          high={ground}
          sign
          {...step}
        />
      )}
      <CoreAsItCameUp column={c} depth={depth} />
      <UprightStaff x={lane.depthStaff} scale={depth} low={0} high={c.bottom_m} sign={false} {...step} />
      <Strips column={c} depth={depth} />
      <Ground column={c} depth={depth} id={name} />
      <CoreSymbolLane column={c} depth={depth} />
      <UnitNumbers column={c} depth={depth} />
      <SamplesAndAges column={c} depth={depth} bottom={HEAD + height} />
      <LaboratoryLanes
        lanes={lab.lanes}
        x={lane.agesEnd + LANE_GAP + 4}
        right={(lane.words ?? inner) - 16}
        depth={depth}
        bottom={HEAD + height}
        id={name}
      />
      <Words column={c} depth={depth} width={inner - (lane.words ?? inner)} bottom={HEAD + height} />
      <CoreSymbolLegend rows={legend} y={HEAD + height + 16} />
      <WordsBelowColumn below={below} y={belowY} />
    </g>
  );
  return drawn(
    {
      name,
      width: 'two',
      title: holeTitle(c.hole),
      notes: notes(c, results),
      warnings,
      caption: {
        head: `Column of hole ${hole} in its in-situ depth.`,
        text: captionText(c, lab),
      },
      height:
        below.height > 0
          ? belowY + below.height - 4
          : HEAD + height + (legend.length > 0 ? 14 + legend.length * 12 : 6),
    },
    drawing,
    options,
  );
}

const inOneSentence = (words: readonly string[]): string => words.join(', ').replace(/, ([^,]+)$/, ' and $1');

/** In the order in which they are left out. */
function leftOut({ lane, hole, photographs }: Column): string[] {
  return [
    ...(photographs.strips.length > 0 && lane.strips === null ? ['the photographs'] : []),
    ...(hole.runs.length > 0 && !lane.hasCore ? ['the core as it came up'] : []),
    ...(lane.ages === 'words' ? ['the densities of the ages'] : []),
    ...(lane.hasSeen ? [] : ['what was seen']),
  ];
}

function narrow(c: Column, inner: number): Warning[] {
  const left = leftOut(c);
  if (left.length === 0) return [];
  const isOne = left.length === 1 && left[0] === 'the core as it came up';
  const medians = c.lane.ages === 'medians' ? 'of the ages only the medians are drawn, ' : '';
  return narrowness(c.lane.least, inner, `${medians}${inOneSentence(left)} ${isOne ? 'is' : 'are'} left out`);
}

/** Least room for ages, and of the words where lanes of laboratory values stand before them; points. */
const LEAST_AGES = 84;
const NARROW_WORDS = 88;

interface Laboratory {
  /** With the room that the lanes leave to ages and words. */
  column: Column;
  lanes: Lane[];
  /** Measured and without room. */
  left: Lane[];
}

/** The lanes that fit between ages and words; none where the words have no room next to the column. */
function laboratoryIn(c: Column, results: Results, inner: number): Laboratory {
  const all = lanesOf(results, c.hole.hole);
  if (c.lane.words === null) return { column: c, lanes: [], left: all };
  const words = inner - NARROW_WORDS;
  const ages = c.dates.length === 0 ? 0 : LEAST_AGES;
  const room = words - 16 - agesFrom(c) - ages;
  const lanes = all.slice(0, lanesIn(room));
  const left = all.slice(lanes.length);
  if (lanes.length === 0) return { column: c, lanes, left };
  const agesEnd =
    ages === 0 ? agesFrom(c) - LANE_GAP : words - 16 - lanes.length * (LEAST_LANE + LANE_GAP) - 4;
  return { column: { ...c, lane: { ...c.lane, agesEnd, words } }, lanes, left };
}

/** The hole's quantities that its graphic log has no room for. */
export function withoutRoom(results: Results, hole: string, options: FigureOptions): number {
  const inner = innerWidth('two', options);
  return laboratoryIn(gather(results, hole, inner, options), results, inner).left.length;
}

function notes(c: Column, results: Results): string[] {
  const { hole } = c;
  // In the end the string is out again: the account tells what it was.
  const joints = hole.account.filter(({ item }) => item === 'joint').length || hole.joints_in;
  const string = joints > 0 ? `string of ${counted(joints, 'joint')}, ` : '';
  const reached =
    hole.penetration_m === null
      ? []
      : [`${string}${joints > 0 ? 'shoe at' : 'reached'} ${printed(hole.penetration_m, 2)} m`];
  const pushes = hole.runs.filter((run) => run.method === 'push').length;
  const trips = hole.runs.length - pushes;
  const parts = [
    ...(trips > 0 ? [counted(trips, 'run')] : []),
    ...(pushes > 0 ? [counted(pushes, 'push', 'pushes')] : []),
  ];
  const ground = hole.ground_elevation_m;
  return [
    [...reached, ...(parts.length > 0 ? [parts.join(', ')] : [])].join('; '),
    ground === null
      ? 'height of the ground not known'
      : `ground ${signed(ground.value, decimalsDrawn(2 * ground.sigma))} ±${printed(2 * ground.sigma, decimalsDrawn(2 * ground.sigma))} m, ${results.datum.label}`,
  ].filter((note) => note !== '');
}

function columnWarnings(c: Column): Warning[] {
  const warnings: Warning[] = lostWarning(c.hole);
  if (c.units.length === 0) warnings.push({ kind: 'caution', text: 'No unit described' });
  for (const text of c.photographs.faults) warnings.push({ kind: 'caution', text });
  warnings.push(...ageWarnings(c.dates.map((d) => d.date)));
  const assumed = assumedHole(c.hole);
  if (assumed !== null) warnings.push({ kind: 'assumed', text: assumed });
  return warnings;
}

const PHOTOGRAPHS =
  'Photographs are cut out of their pictures by two marks each, one scale for all of a picture, without correction of perspective or lens, and stretched to in-situ depth; blank where no picture reaches.';

const uncutText = (uncut: number): string =>
  uncut === 0 ? '' : `Not drawn: ${counted(uncut, 'photograph')} without two marks.`;

function captionText(c: Column, lab: Laboratory): string {
  const shortening = c.hole.shortening;
  const how =
    shortening === null
      ? ''
      : ` (decaying shortening: local recovery ${printed(shortening.recovery_at_ground.value, 2)} at the ground, length ${printed(shortening.length_m.value, 1)} m)`;
  const curves = yearsOf(c.dates.map((d) => d.date));
  return [
    c.lane.hasCore
      ? `At left the core as it came up, run by run: black recovered, crossed lost${c.hole.runs.some(lossUnknown) ? ' (slanted: at one end or the other, unknown)' : ''}; ties lead each contact to where it lay${how}.`
      : '',
    c.lane.strips === null ? '' : PHOTOGRAPHS,
    uncutText(c.photographs.uncut),
    'Width of the column follows grain size. Contacts: line sharp, dashes gradational, wave erosional, dots uncertain; the bar next to the staff is 95 % of a contact’s depth.',
    c.hole.not_represented.length > 0
      ? 'Crossed in the column: ground by-passed, not represented in the core.'
      : '',
    c.samples.length > 0 ? 'Lozenges are samples, filled if dated.' : '',
    c.dates.length > 0
      ? c.lane.ages === 'medians'
        ? `Ages are medians${curves}, cal BP.`
        : c.lane.ages === 'words'
          ? `Ages are medians and 95.4 % ranges${curves}, cal BP.`
          : `Densities are calibrated${curves}, each drawn to one height, filled within the 95.4 % range and darker within the 68.3 % range, median and 95 % next to them; laboratory ages and offsets are ±1 sd.`
      : '',
    'Elevations are ±2 sd.',
    lanesCaption(lab.lanes),
    notDrawn(lab.left),
    patternsText(c),
    noPatternText(c.hole.units),
  ]
    .filter((sentence) => sentence !== '')
    .join(' ');
}

function patternsText(c: Column): string {
  const numbers = [...new Set(c.units.map((u) => u.sediment.fgdc).filter((n) => n !== null))].sort(
    (a, b) => a - b,
  );
  return numbers.length === 0 ? '' : `Patterns after FGDC ${inOneSentence(numbers.map(String))}.`;
}
