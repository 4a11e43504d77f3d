/**
 * What pulling the string puts on each part of the gear, against what is marked on it: the load as last read where there
 * is a reading, else the wide range of the estimate. Rated loads are checked by a competent person, never here.
 */
import { atMost } from '@stillstand/science/base';
import {
  lineLoad,
  type PullCase,
  type PullEstimate,
  pullEstimate,
  type RatedLoad,
  type Reeving,
} from '@stillstand/science/rig';
import { type RatedPart, ratedParts } from './rated-parts.ts';
import type { HoleState } from './state.ts';
import type { Basis } from './weighed-head.ts';

/** A part whose mark was read, with the largest load it has to carry. */
interface PartLoad {
  part: string;
  rated_kn: number;
  /** As read, else the highest estimate. */
  load_kn: number;
  verdict: 'within' | 'could exceed' | 'exceeds';
  by: 'reading' | 'estimate';
}

export interface PullLoads {
  estimate: PullEstimate | null;
  reeving: Reeving;
  /** On the line, as last read; with what it makes of the other parts, null where the reeving is of no use. */
  read: (Record<'hook_kn' | 'block_kn' | 'head_kn', number | null> & { line_kn: number }) | null;
  /** What was said of the gear and cannot be used, in words: while there is any, nothing is estimated. */
  unusable: string[];
  /** The parts whose rating is exceeded, or could be, the gravest first. */
  against: PartLoad[];
  /** The least rating ÷ load of those that were read; null where none was, or no load is known. */
  weakest: PartLoad | null;
  /** Every part, with a mark or without. */
  parts: readonly RatedPart[];
  /** The load ratings read off the gear. */
  rated: readonly RatedLoad[];
  basis: Basis[];
}

export function pullLoads(now: HoleState): PullLoads {
  const { pulling, given } = now;
  const reeving = reevingOf(now);
  const { parts, rated } = markedParts(now);
  const unusable = pulling.unusable.map(({ words }) => words);
  const length = now.fold.collar_to_shoe_m;
  // while it comes out its height is not read: no more of it is in the ground than it is long
  const inGround =
    length === null ? null : (now.last?.penetration_now_m ?? Math.min(length, now.fold.deepest_m ?? 0));
  const estimate =
    now.pipe === null || length === null || inGround === null || unusable.length > 0
      ? null
      : pullEstimate({
          pipe: now.pipe,
          collar_to_shoe_m: length,
          penetration_m: Math.max(0, Math.min(inGround, length)),
          plug_m: now.last?.plug_m ?? null,
          extra_kg: pulling.hanging_kg,
          reeving,
          rated,
        });
  const line_kn = lastRead(now);
  const read = line_kn === null ? null : { line_kn, ...upwards(now, line_kn) };
  const loads = read === null ? (estimate?.still.against ?? []).map(byEstimate) : byReading(read, rated);
  // the gravest first, and of those the part that bears the least of its load
  loads.sort((a, b) => GRAVE[b.verdict] - GRAVE[a.verdict] || bears(a) - bears(b));
  const weakest = loads.toSorted((a, b) => bears(a) - bears(b))[0] ?? null;
  return {
    estimate,
    reeving,
    read,
    against: loads.filter(({ verdict }) => verdict !== 'within'),
    weakest,
    parts,
    rated,
    unusable,
    basis: [
      ...unusable.map((says) => ({ says, assumed: true })),
      ...(pulling.unusable.some(({ name }) => name === 'line_parts')
        ? []
        : [
            {
              says: reeving.parts === 1 ? '1 part of line' : `${reeving.parts} parts of line`,
              assumed: !given.has('line_parts'),
            },
          ]),
      ...gearBasis(parts, weakest),
      ...(pulling.hanging_kg === 0 ? [] : [{ says: `${pulling.hanging_kg} kg hanging`, assumed: false }]),
    ],
  };
}

const GRAVE: Readonly<Record<PartLoad['verdict'], number>> = { within: 0, 'could exceed': 1, exceeds: 2 };

const byEstimate = ({ part, rated_kn, load_kn, verdict }: PullCase['against'][number]): PartLoad => ({
  part,
  rated_kn,
  load_kn: load_kn.high,
  verdict,
  by: 'estimate',
});

/** The weakest part, and the parts that no mark was read of. */
function gearBasis(parts: readonly RatedPart[], weakest: PartLoad | null): Basis[] {
  const unread = parts.filter(({ rated_kn }) => rated_kn === null).map(({ part }) => part);
  if (unread.length === parts.length) return [{ says: 'no load rating read', assumed: true }];
  return [
    ...(unread.length === 0 ? [] : [{ says: `not read: ${few(unread)}`, assumed: true }]),
    ...(weakest === null ? [] : [{ says: weakestWords(weakest), assumed: false }]),
    ...parts.flatMap(({ part, doubt }) =>
      doubt === null ? [] : [{ says: `${part} unclear`, assumed: true }],
    ),
  ];
}

/** At most three by name: the others are on the list of the gear. */
const few = (parts: readonly string[]): string =>
  parts.length <= 3 ? parts.join(', ') : `${parts.slice(0, 2).join(', ')} and ${parts.length - 2} more`;

/** "weakest: rope, rated 1.4 × its load": the ratio never shown larger than it is. */
const weakestWords = ({ part, rated_kn, load_kn, by }: PartLoad): string =>
  `weakest: ${part}, rated ${atMost(rated_kn / load_kn, 1).toFixed(1)} × ${by === 'reading' ? 'the load read' : 'its highest estimate'}`;

/** From the line back to what hangs on the hook and what block and tripod bear; not by a reeving that cannot be used. */
function upwards(now: HoleState, line_kn: number): Omit<NonNullable<PullLoads['read']>, 'line_kn'> {
  if (now.pulling.unusable.some(({ name }) => name === 'line_parts' || name === 'line_sheaves'))
    return { hook_kn: null, block_kn: null, head_kn: null };
  const reeving = reevingOf(now);
  const hook_kn = line_kn * reeving.parts * lineLoad(1, reeving).efficiency;
  const { block_kn, head_kn } = lineLoad(hook_kn, reeving);
  return { hook_kn, block_kn, head_kn };
}

/** Each part whose load is known, against it. */
const byReading = (read: NonNullable<PullLoads['read']>, rated: readonly RatedLoad[]): PartLoad[] =>
  rated.flatMap(({ part, rated_kn, on }): PartLoad[] => {
    const load_kn = read[`${on}_kn`];
    if (load_kn === null) return [];
    return [{ part, rated_kn, load_kn, verdict: load_kn > rated_kn ? 'exceeds' : 'within', by: 'reading' }];
  });

/** The part that bears the least of a line load that is being typed, kN, where it exceeds a mark; else null. */
export function exceededBy(
  now: HoleState,
  line_kn: number,
): Pick<PartLoad, 'part' | 'rated_kn' | 'load_kn'> | null {
  const loads = byReading({ line_kn, ...upwards(now, line_kn) }, markedParts(now).rated);
  const over = loads.filter(({ verdict }) => verdict === 'exceeds');
  return over.toSorted((a, b) => bears(a) - bears(b))[0] ?? null;
}

/** How much of its load a part is rated for. */
const bears = ({ rated_kn, load_kn }: PartLoad): number => rated_kn / load_kn;

const reevingOf = ({ pulling: { parts, sheaves, bearing } }: HoleState): Reeving => ({
  parts,
  sheaves: sheaves ?? parts,
  bearing,
});

/** Every part, and of those the ones with a mark. */
function markedParts({ campaign, pulling }: HoleState): Pick<PullLoads, 'parts' | 'rated'> {
  const parts = ratedParts(campaign.rows.rated_gear, pulling);
  const rated = parts.flatMap(({ part, rated_kn, on }): RatedLoad[] =>
    rated_kn === null ? [] : [{ part, rated_kn, on }],
  );
  return { parts, rated };
}

/** The load on the line as last read in this hole while it is pulled, up to the reading it is looked at. */
function lastRead({ campaign, entries }: HoleState): number | null {
  const loads = new Map(campaign.rows.string_items.map(({ row_id, line_load_kn }) => [row_id, line_load_kn]));
  const last = entries.findLast(({ reading }) => loads.get(reading.row_id) != null);
  return last === undefined ? null : loads.get(last.reading.row_id)!;
}
