/**
 * What is taken along for the holes that are planned: each amount with what it follows from, rounded up. What is worn
 * out by use is for all of these holes; what goes home again, for the deepest of them. Tools and spares are common
 * practice, no source; makers' manuals, permits and local codes take precedence. Pure; nothing throws.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { type GearAssumptions, readSettings } from '@stillstand/campaign/settings';
import { atLeast, median } from '@stillstand/science/base';
import { bore_mm, boreVolume_l, jointsNeeded } from '@stillstand/science/rig';
import { peopleIn } from '../day/people.ts';
import { gearInventory, samplerInventory, samplerWords } from '../gear-inventory.ts';
import { ofPipe, pipeAtHand } from '../pipe-at-hand.ts';
import { type PipeItem, pipeInventory } from '../pipe-inventory.ts';
import { ratedParts } from '../rated-parts.ts';
import { lossOf, plannedDepths, USUAL_STICK_UP_M } from '../target-depths.ts';
import { type AtHand, countAtHand, litresAtHand, longestAtHand, NOT_RECORDED } from './gear-at-hand.ts';
import { TOOLS } from './tools.ts';

export interface GearLine {
  /** Stable name, in the column `line` of the table `packing`. */
  line: string;
  item: string;
  /** Null where what it follows from is not known. */
  amount: number | null;
  /** Empty for pieces. */
  unit: '' | 'm' | 'L';
  /** What it follows from: "for 11.20 m and 1 refill". */
  why: string;
  atHand: AtHand;
}

type Pipe = Campaign['rows']['pipes'][number];

/** Length of a joint that is not measured, m: 10 ft; common practice, no source. */
const USUAL_JOINT_M = 3.048;

/** From one tide that closes the route to the next that opens it: half a lunar day, 12.42 h, rounded up. */
const MISSED_TIDE_H = 12.5;

/** Tape on the cable besides one every metre: sediment, sampler full, stop. */
const OTHER_MARKS = 3;

/** Of the rope besides line and mast, m: blocks, knots and a hand's hold at each end; common practice, no source. */
const ROPE_TAIL_M = 10;

/** Lines for the day of this date, `2024-03-05`; null where no day is planned. Empty while no hole is planned. */
export function gearList(
  campaign: Pick<Campaign, 'rows' | 'skipped_rows'>,
  assumed: GearAssumptions,
  date: string | null,
): GearLine[] {
  const { rows } = campaign;
  const planned = plannedDepths(rows.holes);
  const holes = assumed.gear_holes === 0 ? planned : planned.slice(0, assumed.gear_holes);
  const deepest_m = holes[0]?.target_m;
  if (deepest_m === undefined) return [];
  const pipe = rows.pipes.find((kind) => kind.pipe === holes[0]!.pipe) ?? rows.pipes[0] ?? null;
  const gear = gearInventory(campaign);
  const items = ofPipe(pipeInventory(campaign), holes[0]!.pipe);
  const total_m = holes.reduce((sum, { target_m }) => sum + target_m, 0);
  const spare = assumed.gear_spare_percent / 100;
  const count = (line: string, item: string, amount: number, why: string, atHand: AtHand): GearLine => ({
    line,
    item,
    amount: atLeast(amount, 0),
    unit: '',
    why,
    atHand,
  });
  const called = (word: RegExp) => countAtHand(gear, (i) => word.test(i.gear));
  const joints = jointsFor(deepest_m, lossOf(rows.pipes, pipe?.pipe ?? null), items);
  const spareJoints = withSpare(joints.needed, spare) - joints.needed;
  const turns_m = (assumed.gear_drum_turns * Math.PI * assumed.gear_drum_mm) / 1000;
  const mast_m = 2 * assumed.gear_mast_m;
  const day = rows.field_days.find((d) => d.date === date) ?? null;
  const crew = crewIn(day?.crew ?? null);
  const isTidal = day !== null && day.access !== null;
  const field_h = assumed.gear_field_h + (isTidal ? MISSED_TIDE_H : 0);
  const { pulling } = readSettings(rows.settings).settings;
  const parts = ratedParts(rows.rated_gear, pulling);
  const unread = parts.filter((p) => p.rated_kn === null);
  return [
    count(
      'joints',
      'Pipe joints',
      joints.needed + spareJoints,
      `${joints.needed} of ${joints.length_m.toFixed(2)} m reach ${metres(deepest_m)} with ${metres(USUAL_STICK_UP_M)} stick-up; ${spareJoints} spare`,
      joints.atHand,
    ),
    count('shoes', 'Shoes', 2, 'one in use, one spare', ofKind(items, 'shoe')),
    count(
      'couplings',
      'Couplings',
      spareJoints,
      `${percent(assumed)} of ${joints.needed} joints; none where joints screw into each other`,
      ofKind(items, 'coupling'),
    ),
    count('drive_head', 'Drive head', 1, 'one in use', ofKind(items, 'drive_head')),
    count('samplers', 'Samplers', 2, 'one in use, one spare', samplersAtHand(campaign, boreOf(pipe))),
    {
      line: 'cable',
      item: 'Sampler cable',
      amount: atLeast(deepest_m + mast_m + turns_m, 0),
      unit: 'm',
      why: `${metres(deepest_m)} deep, mast up and down ${metres(mast_m)}, ${assumed.gear_drum_turns} turns on the drum ${metres(turns_m)}`,
      atHand: longestAtHand(gear, (i) => i.kind === 'cable' || /\bcable\b/i.test(i.gear)),
    },
    count(
      'marks',
      'Tape marks for the cable',
      deepest_m + OTHER_MARKS,
      `one every metre to ${metres(deepest_m)}, and sediment, full, stop`,
      called(/mark|insulating tape/i),
    ),
    {
      line: 'rope',
      item: 'Pulling rope',
      amount: atLeast(pulling.parts * assumed.gear_mast_m + mast_m + ROPE_TAIL_M, 0),
      unit: 'm',
      why: `${pulling.parts} ${pulling.parts === 1 ? 'part' : 'parts'} of line, mast up and down, ${metres(ROPE_TAIL_M)} to tie and hold`,
      atHand: longestAtHand(gear, (i) => i.kind === 'rope'),
    },
    count(
      'pulling',
      'Pulling gear with its ratings read',
      parts.length,
      'each with the load marked on it, checked by a competent person',
      {
        amount: parts.length - unread.length,
        words: unread.length === 0 ? 'all read' : `rating not read: ${unread.map((p) => p.part).join(', ')}`,
      },
    ),
    {
      line: 'water',
      item: 'Water to fill the pipe',
      unit: 'L',
      ...waterFor(pipe, total_m, assumed.gear_refills),
      atHand: litresAtHand(gear, (i) => /water/i.test(i.gear) && !/drink/i.test(i.gear)),
    },
    count(
      'trays',
      'Trays or core boxes',
      holes.reduce((sum, { target_m }) => sum + atLeast(target_m / assumed.gear_tray_m, 0), 0),
      `${metres(total_m)} of core, ${metres(assumed.gear_tray_m)} in each`,
      called(/\btray|core box/i),
    ),
    ...sampleLines(rows, spare, percent(assumed), called),
    {
      line: 'fuel',
      item: 'Fuel',
      amount: atLeast(holes.length * assumed.gear_engine_h * assumed.gear_fuel_l_h * (1 + spare), 0),
      unit: 'L',
      why: `${holes.length} × ${assumed.gear_engine_h} h at ${assumed.gear_fuel_l_h} L/h, ${percent(assumed)} spare`,
      atHand: litresAtHand(gear, (i) => /fuel|petrol|diesel/i.test(i.gear)),
    },
    {
      line: 'drinking_water',
      item: 'Drinking water',
      amount: atLeast(crew.people * field_h * assumed.gear_drink_l_h, 0),
      unit: 'L',
      why: `${crew.words}, ${assumed.gear_field_h} h${isTidal ? ` and ${MISSED_TIDE_H} h if the tide closes the route` : ''}`,
      atHand: litresAtHand(gear, (i) => /drinking/i.test(i.gear)),
    },
    ...(day?.access === 'boat'
      ? [count('life_jackets', 'Life jackets', crew.people, crew.words, called(/life ?jacket|buoyancy/i))]
      : []),
    ...TOOLS.map(({ line, item, amount, why, called: word }) => count(line, item, amount, why, called(word))),
  ];
}

const metres = (m: number): string => `${m.toFixed(2)} m`;
const percent = ({ gear_spare_percent: spare }: GearAssumptions): string => `${spare} %`;

/** At least one more where any spare is asked for. */
const withSpare = (needed: number, spare: number): number => needed + atLeast(needed * spare, 0);

function jointsFor(target_depth_m: number, makeup_loss_m: number, items: readonly PipeItem[]) {
  const recorded = pipeAtHand(items, makeup_loss_m, USUAL_STICK_UP_M);
  const lengths = items.flatMap(({ item, isAtHand, length_m }) =>
    item === 'joint' && isAtHand && length_m !== null && length_m > makeup_loss_m ? [length_m] : [],
  );
  const length_m = lengths.length === 0 ? USUAL_JOINT_M : median(lengths);
  const enough = Math.ceil((target_depth_m + USUAL_STICK_UP_M) / (length_m - makeup_loss_m)) + 1;
  const { joints } = jointsNeeded({
    target_depth_m,
    stick_up_m: USUAL_STICK_UP_M,
    makeup_loss_m,
    collar_to_shoe_m: 0,
    at_hand: Array.from({ length: enough }, () => ({ label: null, length_m })),
  });
  return { needed: joints.length, length_m, atHand: ofKind(items, 'joint', recorded.joints) };
}

/** Of the pipe stock and the readings; `usable` where not all at hand can be used. */
function ofKind(items: readonly PipeItem[], kind: PipeItem['item'], usable?: number): AtHand {
  const of = items.filter(({ item }) => item === kind);
  if (of.length === 0) return NOT_RECORDED;
  const atHand = usable ?? of.filter(({ isAtHand }) => isAtHand).length;
  return { amount: atHand, words: `${atHand} of ${of.length} in Pipe stock` };
}

/** Those that are here and fit into the bore. */
function samplersAtHand(campaign: Pick<Campaign, 'rows'>, bore: number | null): AtHand {
  const samplers = samplerInventory(campaign);
  if (samplers.length === 0) return NOT_RECORDED;
  const wide = new Set(
    campaign.rows.samplers.flatMap(({ sampler, outside_mm }) =>
      bore !== null && outside_mm !== null && outside_mm >= bore ? [sampler] : [],
    ),
  );
  const here = samplers
    .filter(({ sampler }) => !wide.has(sampler))
    .filter((s) => s.whereabouts === 'at hand');
  const said = [
    here.map(({ sampler }) => sampler).join(', ') || 'none',
    ...samplers.filter((s) => s.whereabouts !== 'at hand').map((s) => `${s.sampler} ${samplerWords(s)}`),
    ...[...wide].map((sampler) => `${sampler} does not fit the bore`),
  ];
  return { amount: here.length, words: said.join('; ') };
}

/** Bore area × depth × fills; the wall of the pipe, and what runs out below the shoe, are not known to the litre. */
function waterFor(pipe: Pipe | null, depth_m: number, refills: number): Pick<GearLine, 'amount' | 'why'> {
  const bore = boreOf(pipe);
  if (bore === null) return { amount: null, why: 'enter outside diameter and wall of the pipe' };
  return {
    amount: atLeast(boreVolume_l(bore, depth_m) * (1 + refills), 0),
    why: `for ${metres(depth_m)} and ${refills} ${refills === 1 ? 'refill' : 'refills'}, bore ${bore.toFixed(1)} mm`,
  };
}

/** Millimetres; null where it is not stated, or the wall leaves none. */
function boreOf(pipe: Pipe | null): number | null {
  if (pipe === null || pipe.outside_diameter_mm === null || pipe.wall_mm === null) return null;
  const bore = bore_mm({ ...pipe, outside_diameter_mm: pipe.outside_diameter_mm, wall_mm: pipe.wall_mm });
  return bore > 0 ? bore : null;
}

function sampleLines(
  { planned_samples, samples }: Campaign['rows'],
  spare: number,
  spareWords: string,
  called: (word: RegExp) => AtHand,
): GearLine[] {
  const taken = new Set(samples.map(({ sample }) => sample));
  const due = planned_samples.filter(({ sample }) => !taken.has(sample)).length;
  const why = due === 0 ? 'no samples are planned' : `${due} planned samples, ${spareWords} spare`;
  const amount = withSpare(due, spare);
  return [
    { line: 'bags', item: 'Sample bags', amount, unit: '', why, atHand: called(/\bbags?\b/i) },
    { line: 'labels', item: 'Sample labels', amount, unit: '', why, atHand: called(/\blabels?\b/i) },
  ];
}

/** "geologist, driller, hand" is three; two where no crew is entered, as nobody works alone. */
function crewIn(crew: string | null): { people: number; words: string } {
  const people = peopleIn(crew);
  return people === 0
    ? { people: 2, words: '2 people assumed, no crew entered' }
    : { people, words: `${people} ${people === 1 ? 'person' : 'people'}` };
}
