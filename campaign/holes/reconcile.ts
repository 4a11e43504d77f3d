/**
 * Pipe reconciled, so that none stays in a beach unnoticed: of one hole, and of the whole campaign. Every item that went
 * in is in exactly one of the lists of what became of it.
 */
import type { Campaign } from '@stillstand/campaign/document';
import {
  type GearItem,
  gearInventory,
  type SamplerItem,
  samplerInventory,
  samplerOfRun,
} from './gear-inventory.ts';
import { type PipeItem, pipeInventory } from './pipe-inventory.ts';
import { conditionsOf, emptyTally, fateOf, type PipeTally, type TallyItem, tallyItem } from './pipe-tally.ts';
import type { HoleState } from './state.ts';

type Tables = Pick<Campaign, 'rows' | 'skipped_rows'>;

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
export function reconcileHole(now: Pick<HoleState, 'row' | 'fold' | 'campaign'>, isEnding = false): HolePipe {
  const { hole } = now.row;
  const { rows } = now.campaign;
  const conditions = conditionsOf(now.campaign);
  const into = now.fold.account.map((added) => tallyItem(hole, added));
  const used = new Set(rows.runs.flatMap((run) => (run.hole === hole ? [samplerOfRun(rows, run)] : [])));
  const tally = emptyTally();
  now.fold.account.forEach((added, i) => {
    tally[fateOf(added, conditions, isEnding)].push(into[i]!);
  });
  return {
    ...tally,
    into,
    samplers: samplerInventory({ rows }).filter(({ sampler }) => used.has(sampler)),
    gear: gearInventory({ rows }).filter((gear) => gear.hole === hole),
  };
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
