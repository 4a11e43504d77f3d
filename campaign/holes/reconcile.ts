/**
 * Pipe reconciled, so that none stays in a beach unnoticed: of one hole, of one day, of the whole campaign. Every item
 * that went in is in exactly one of the lists of what became of it.
 */
import type { Campaign } from '@stillstand/campaign/document';
import type { AccountItem } from '@stillstand/science/rig';
import {
  type GearItem,
  gearInventory,
  type SamplerItem,
  samplerInventory,
  samplerOfRun,
} from './gear-inventory.ts';
import { type PipeItem, pipeInventory } from './pipe-inventory.ts';
import { hasEnded } from './rig-readings.ts';
import { type HoleState, holeState } from './state.ts';

type Tables = Pick<Campaign, 'rows' | 'skipped_rows'>;

/** One item of one hole. */
export interface TallyItem {
  hole: string;
  item: AccountItem['item'];
  /** What is painted on it; null where nothing is. */
  label: string | null;
  /** End to end when it went in; null where it was not measured. */
  length_m: number | null;
  /** Row that added it. */
  row_id: string;
}

/** What became of items, each in one list. */
export interface PipeTally {
  /** Came back whole, and nobody found it damaged. */
  back: TallyItem[];
  /** Came back, damaged. */
  damaged: TallyItem[];
  /** Cut up, or came back cut. */
  cut: TallyItem[];
  left: TallyItem[];
  lost: TallyItem[];
  /** Still in the string of a hole that goes on. */
  inString: TallyItem[];
  /** In the string when the hole ended, and nobody said what became of it. */
  unaccounted: TallyItem[];
}

export interface HolePipe extends PipeTally {
  /** Went in: all of the other lists together. */
  into: TallyItem[];
  /** Samplers that were used in this hole, and where they are. */
  samplers: SamplerItem[];
  /** Gear that stayed in this hole. */
  gear: GearItem[];
}

/**
 * The pipe of one hole. `isEnding`: as if it ended now, so that what is still in the string is not accounted for; a hole
 * that has ended is so anyway. Pure, nothing throws.
 */
export function reconcileHole(
  now: Pick<HoleState, 'row' | 'fold' | 'ended' | 'campaign'>,
  isEnding = false,
): HolePipe {
  const { hole } = now.row;
  const { rows } = now.campaign;
  const conditions = conditionsOf(now.campaign);
  const into = now.fold.account.map((added) => tallyItem(hole, added));
  const used = new Set(rows.runs.flatMap((run) => (run.hole === hole ? [samplerOfRun(rows, run)] : [])));
  const tally = emptyTally();
  now.fold.account.forEach((added, i) => {
    tally[fateOf(added, conditions, isEnding || now.ended)].push(into[i]!);
  });
  return {
    ...tally,
    into,
    samplers: samplerInventory({ rows }).filter(({ sampler }) => used.has(sampler)),
    gear: gearInventory({ rows }).filter((gear) => gear.hole === hole),
  };
}

export interface DayPipe extends PipeTally {
  /** ISO 8601. */
  date: string;
  /** Went into a string on that day. The other lists are of that day too, but for `inString` and `unaccounted`. */
  wentIn: TallyItem[];
  /** Of holes whose rows have no date at all: on which day they went in is not known. */
  undated: TallyItem[];
}

/** Days on which pipe went in or came out, in order, ISO 8601. */
export function pipeDays(campaign: Tables): string[] {
  const days = campaign.rows.holes
    .flatMap(({ hole }) => movesOf(campaign, hole))
    .flatMap(({ inOn, outOn }) => [inOn, outOn]);
  return [...new Set(days.filter((day) => day !== null))].sort();
}

/**
 * The pipe of one day (`date`, ISO 8601): what went in, what came out and how, and what was in which string when the day
 * ended. A day is the date of the clock as it was written. A reading without a time is of the day of the reading before
 * it in its hole, else of the one after. Of a hole that has ended, what was never accounted for is `unaccounted` from the
 * day of its last reading on. Pure, nothing throws.
 */
export function reconcileDay(campaign: Tables, date: string): DayPipe {
  const day: DayPipe = { ...emptyTally(), date, wentIn: [], undated: [] };
  for (const { hole } of campaign.rows.holes) {
    for (const { item, fate, inOn, outOn, lastOn } of movesOf(campaign, hole)) {
      if (inOn === null) {
        day.undated.push(item);
        continue;
      }
      if (inOn > date) continue;
      if (inOn === date) day.wentIn.push(item);
      if (fate === 'inString' || fate === 'unaccounted')
        day[date < (lastOn ?? '') ? 'inString' : fate].push(item);
      else if (outOn === date) day[fate].push(item);
      else if (outOn !== null && outOn > date) day.inString.push(item);
    }
  }
  return day;
}

interface Move {
  item: TallyItem;
  fate: keyof PipeTally;
  /** Days it went in and came out, or was said to be left or lost; null where that is not known. */
  inOn: string | null;
  outOn: string | null;
  /** Day of the last reading of its hole. */
  lastOn: string | null;
}

function movesOf(campaign: Tables, hole: string): Move[] {
  const now = holeState(campaign, hole);
  if (now === null || now.fold.account.length === 0) return [];
  const conditions = conditionsOf(campaign);
  const days = daysOf(now);
  const lastOn = [...days.values()].at(-1) ?? null;
  return now.fold.account.map((added) => ({
    item: tallyItem(hole, added),
    fate: fateOf(added, conditions, hasEnded(now.row.state)),
    inOn: days.get(added.row_id) ?? null,
    outOn: added.fate_row_id === null ? null : (days.get(added.fate_row_id) ?? null),
    lastOn,
  }));
}

/** The day of each reading, by row_id, in their order; without any time in the hole there is none. */
function daysOf({ entries }: Pick<HoleState, 'entries'>): ReadonlyMap<string, string> {
  const written = entries.map(({ time }) => /^\d{4}-\d{2}-\d{2}/.exec(time ?? '')?.[0] ?? null);
  const days = new Map<string, string>();
  let day = written.find((d) => d !== null) ?? null;
  entries.forEach(({ reading }, i) => {
    day = written[i] ?? day;
    if (day !== null) days.set(reading.row_id, day);
  });
  return days;
}

/** Where everything of a campaign is. */
export interface CampaignPipe {
  items: PipeItem[];
  /** Items by kind and whereabouts, those that cannot be had last; `length_m` is of those measured. */
  totals: { item: PipeItem['item']; whereabouts: PipeItem['whereabouts']; items: number; length_m: number }[];
  samplers: SamplerItem[];
  gear: GearItem[];
}

/** Stock, strings, samplers and gear of a campaign, with the totals. Pure, nothing throws. */
export function reconcileCampaign(campaign: Tables): CampaignPipe {
  const items = pipeInventory(campaign);
  const totals: CampaignPipe['totals'] = [];
  for (const item of KINDS) {
    for (const whereabouts of WHEREABOUTS) {
      const of = items.filter((i) => i.item === item && i.whereabouts === whereabouts);
      if (of.length === 0) continue;
      const length_m = of.reduce((sum, i) => sum + (i.length_m ?? 0), 0);
      totals.push({ item, whereabouts, items: of.length, length_m });
    }
  }
  return { items, totals, samplers: samplerInventory(campaign), gear: gearInventory(campaign) };
}

const KINDS = ['shoe', 'joint', 'coupling', 'drive_head'] as const satisfies readonly PipeItem['item'][];
const WHEREABOUTS = [
  'in stock',
  'pulled',
  'shortened',
  'in string',
  'damaged',
  'cut',
  'left',
  'lost',
  'missing',
] as const satisfies readonly PipeItem['whereabouts'][];

const emptyTally = (): PipeTally => ({
  back: [],
  damaged: [],
  cut: [],
  left: [],
  lost: [],
  inString: [],
  unaccounted: [],
});

const tallyItem = (hole: string, { item, label, length_m, row_id }: AccountItem): TallyItem => ({
  hole,
  item,
  label,
  length_m,
  row_id,
});

/** "shoe S1; joints J1, J2 and 3 without a label". */
export function itemsWords(items: readonly { item: string; label: string | null }[]): string {
  return [...Map.groupBy(items, ({ item }) => item)]
    .map(([item, of]) => {
      const labels = of.flatMap(({ label }) => (label === null || label === '' ? [] : [label]));
      const bare = of.length - labels.length;
      const name = item.replaceAll('_', ' ') + (of.length > 1 ? 's' : '');
      if (labels.length === 0) return of.length === 1 ? name : `${of.length} ${name}`;
      return `${name} ${labels.join(', ')}${bare > 0 ? ` and ${bare} without a label` : ''}`;
    })
    .join('; ');
}

const conditionsOf = ({ rows }: Tables): ReadonlyMap<string, 'sound' | 'damaged' | null> =>
  new Map(rows.string_items.map(({ row_id, condition }) => [row_id, condition]));

function fateOf(
  { fate, fate_row_id, cut_m }: AccountItem,
  conditions: ReturnType<typeof conditionsOf>,
  ended: boolean,
): keyof PipeTally {
  switch (fate) {
    case 'in the string':
    case 'missing':
      return ended ? 'unaccounted' : 'inString';
    case 'removed':
    case 'pulled':
      if (conditions.get(fate_row_id ?? '') === 'damaged') return 'damaged';
      return cut_m > 0 ? 'cut' : 'back';
    default:
      return fate;
  }
}
