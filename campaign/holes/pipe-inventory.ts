/** Where each labelled item of pipe is, across all holes of a campaign: what can be used again, and what cannot. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { momentOf } from '@stillstand/campaign/tables';
import { type AccountItem, reduceHole, rigDefaults } from '@stillstand/science/rig';
import { remembered } from './remembered.ts';
import { hasEnded, rigEntries } from './rig-readings.ts';

export interface PipeItem {
  item: AccountItem['item'];
  label: string;
  /** End to end, what was cut off it taken off; null where it was not measured. */
  length_m: number | null;
  /** Row that added it to a string last. */
  row_id: string;
  /**
   * `pulled`: it came back whole. `shortened`: it came back cut, and must be measured again. The others are not to be
   * had: in another string, cut up, left or lost in the ground, or not accounted for when its hole ended.
   */
  whereabouts: 'in string' | 'pulled' | 'shortened' | 'cut' | 'left' | 'lost' | 'missing';
  /** The hole it went into last. */
  hole: string;
  /** When it went in, ms since 1970; NaN where the clock was not read. */
  time_ms: number;
  /** It can go into a string now. */
  isAtHand: boolean;
}

interface Use {
  hole: string;
  added: AccountItem & { label: string };
  /** When it was added, ms since 1970; NaN where the clock was not read. */
  time_ms: number;
  line: number;
  whereabouts: PipeItem['whereabouts'];
}

/**
 * One entry for each label of each kind of item, in the order they were first added. Where the clock does not show
 * which of two holes an item went into last, it is where it cannot be had.
 */
export function pipeInventory(campaign: Pick<Campaign, 'rows' | 'skipped_rows'>): PipeItem[] {
  return [...usesByItem(campaign).values()].map((uses) => {
    const last = lastUse(uses);
    const { item, label, length_m, cut_m, row_id } = last.added;
    return {
      item,
      label,
      length_m: length_m === null ? null : length_m - cut_m,
      row_id,
      whereabouts: last.whereabouts,
      hole: last.hole,
      time_ms: last.time_ms,
      isAtHand: isAtHand(last),
    };
  });
}

const isAtHand = ({ whereabouts }: Use): boolean => whereabouts === 'pulled' || whereabouts === 'shortened';

/** Readings of other tables are no items: they enter neither the account nor its order. */
const usesByItem = remembered(
  ({ rows, skipped_rows }: Pick<Campaign, 'rows' | 'skipped_rows'>) => [
    rows.holes,
    rows.string_items,
    skipped_rows,
  ],
  readUses,
);

function readUses(campaign: Pick<Campaign, 'rows' | 'skipped_rows'>): ReadonlyMap<string, Use[]> {
  const { holes, string_items } = campaign.rows;
  const times = new Map(string_items.map((row) => [row.row_id, momentOf(row.time ?? '') ?? Number.NaN]));
  const uses = new Map<string, Use[]>();
  let line = 0;
  for (const { hole, state } of holes) {
    const readings = rigEntries(campaign, hole).flatMap(({ reading }) =>
      reading.kind === 'joint' ? [reading] : [],
    );
    if (readings.length === 0) continue;
    const { account } = reduceHole(readings, { ...rigDefaults, ended: hasEnded(state) });
    for (const added of account) {
      const label = added.label?.trim() ?? '';
      if (label === '') continue;
      const key = keyOf(added.item, label);
      const use: Use = {
        hole,
        added: { ...added, label },
        time_ms: times.get(added.row_id) ?? Number.NaN,
        line: line++,
        whereabouts: whereaboutsOf(added),
      };
      uses.set(key, [...(uses.get(key) ?? []), use]);
    }
  }
  return uses;
}

const keyOf = (item: string, label: string): string => `${item} ${label}`;

function whereaboutsOf({ fate, cut_m }: AccountItem): PipeItem['whereabouts'] {
  switch (fate) {
    case 'in the string':
      return 'in string';
    case 'removed':
    case 'pulled':
      return cut_m > 0 ? 'shortened' : 'pulled';
    default:
      return fate;
  }
}

/** Whether `b` is later than `a`; null where nothing shows it. */
function isLater(b: Use, a: Use): boolean | null {
  if (b.hole === a.hole) return b.line > a.line;
  return Number.isFinite(a.time_ms) && Number.isFinite(b.time_ms) && a.time_ms !== b.time_ms
    ? b.time_ms > a.time_ms
    : null;
}

function lastUse(uses: readonly Use[]): Use {
  let last = uses[0]!;
  for (const use of uses.slice(1)) {
    const later = isLater(use, last);
    if (later === true || (later === null && (!isAtHand(use) || isAtHand(last)))) last = use;
  }
  return last;
}

/** "lost in T1", "in the string of T2", "pulled from T1": where an item is, in words. */
export function whereWords({ whereabouts, hole }: Pick<PipeItem, 'whereabouts' | 'hole'>): string {
  const words: Record<PipeItem['whereabouts'], string> = {
    'in string': `in the string of ${hole}`,
    pulled: `pulled from ${hole}`,
    shortened: `cut in ${hole}, to be measured again`,
    cut: `cut up in ${hole}`,
    left: `left in ${hole}`,
    lost: `lost in ${hole}`,
    missing: `not accounted for in ${hole}`,
  };
  return words[whereabouts];
}

/** Items that went into a hole while another hole still has them: one of the two labels is wrong. */
export function pipeProblems(campaign: Pick<Campaign, 'rows' | 'skipped_rows' | 'lines'>): Problem[] {
  return [...usesByItem(campaign).values()].flatMap((uses) =>
    uses.flatMap((use) => {
      const before = uses.find(
        (u) => u.hole !== use.hole && !isAtHand(u) && u.whereabouts !== 'cut' && isLater(use, u) === true,
      );
      if (before === undefined) return [];
      return [
        problem({
          severity: 'warning',
          code: 'pipe-elsewhere',
          table: 'string_items',
          row_id: use.added.row_id,
          line: campaign.lines.get(use.added.row_id) ?? null,
          label: use.hole,
          column: 'joint',
          found: `${use.added.item.replace('_', ' ')} ${use.added.label}, ${whereWords(before)}`,
          expected: 'an item that is at hand',
          fix: `Correct its label here or in ${before.hole}, or enter in ${before.hole} that it came back. It is used as entered.`,
        }),
      ];
    }),
  );
}
