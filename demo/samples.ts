/** What was sampled for dating, why, and what the crew made of it: the plan, hole by hole, from the top down. */
import { LATE_PEAT_CAL_BP } from './section.ts';

export interface SamplePlan {
  hole: string;
  layer: string;
  /** Share of the layer's thickness above its base; 'base' and 'top' are as close to the contact as a sample goes. */
  at: number | 'base' | 'top';
  material: string;
  dated: 'plants' | 'shell' | 'sand' | 'none';
  /** How its true age comes about. */
  age:
    | { from: 'sea' }
    | { from: 'contact'; age_cal_bp: number }
    | { from: 'between'; oldest: number; youngest: number }
    | { from: 'before next'; by: readonly [number, number] };
  claim: 'index' | 'terrestrial' | 'marine' | 'none';
  position?: 'basal' | 'base_of_basal' | 'intercalated';
  /** Scale of the declared lowering by compaction, metres; the true one is drawn from it. */
  lowering_m?: number;
  /** Also a second result on the same sample, wrong: share of modern carbon in it. */
  rootlets?: number;
  rejected_result?: string;
  rejected_point?: string;
}

const REWORKED = 'worn and bored; older than the peat below it: washed in from an older deposit';
const seeds = 'seeds';
const shell = 'marine shell';
const between = (oldest: number, youngest: number) => ({ from: 'between', oldest, youngest }) as const;
const beforeNext = { from: 'before next', by: [120, 800] } as const;
const sea = { from: 'sea' } as const;

const index = (
  hole: string,
  layer: string,
  at: SamplePlan['at'],
  position: NonNullable<SamplePlan['position']>,
  more: Partial<SamplePlan> = {},
): SamplePlan => ({
  hole,
  layer,
  at,
  position,
  material: seeds,
  dated: 'plants',
  age: sea,
  claim: 'index',
  ...more,
});
const marine = (hole: string, layer: string, at: number): SamplePlan => ({
  hole,
  layer,
  at,
  material: shell,
  dated: 'shell',
  age: sea,
  claim: 'marine',
});
const land = (hole: string, material: string): SamplePlan => ({
  hole,
  layer: 'soil',
  at: 0.6,
  material,
  dated: 'plants',
  age: beforeNext,
  claim: 'terrestrial',
});
const contact = (age_cal_bp: number) => ({ from: 'contact', age_cal_bp }) as const;

export const SAMPLES: readonly SamplePlan[] = [
  {
    hole: 'T1',
    layer: 'shoreface',
    at: 0.4,
    material: shell,
    dated: 'shell',
    age: between(9400, 8900),
    claim: 'marine',
    rejected_result: REWORKED,
    rejected_point: REWORKED,
  },

  {
    hole: 'T2',
    layer: 'dune',
    at: 0.5,
    material: 'quartz',
    dated: 'sand',
    age: between(1900, 1200),
    claim: 'terrestrial',
  },
  {
    hole: 'T2',
    layer: 'beach',
    at: 0.3,
    material: shell,
    dated: 'shell',
    age: between(8600, 8000),
    claim: 'none',
    rejected_result: REWORKED,
  },
  {
    hole: 'T2',
    layer: 'shoreface',
    at: 0.5,
    material: 'peat, macrofossils',
    dated: 'plants',
    age: between(8900, 8700),
    claim: 'index',
    position: 'intercalated',
    rejected_point: 'a lump of peat torn from elsewhere, not in place',
  },
  {
    hole: 'T2',
    layer: 'flat',
    at: 0.5,
    material: 'leaves',
    dated: 'none',
    age: between(7700, 7600),
    claim: 'none',
  },
  index('T2', 'fan peat', 'base', 'intercalated', { lowering_m: 0.15 }),
  marine('T2', 'lagoon', 0.85),
  marine('T2', 'lagoon', 0.25),
  index('T2', 'basal peat', 'base', 'base_of_basal'),
  land('T2', 'charcoal'),

  index('T3', 'late peat', 'base', 'intercalated', { age: contact(LATE_PEAT_CAL_BP.back) }),
  marine('T3', 'late lagoon', 0.4),
  index('T3', 'fan peat', 'top', 'intercalated', { lowering_m: 0.12 }),
  index('T3', 'fan peat', 'base', 'intercalated', { lowering_m: 0.12 }),
  marine('T3', 'lagoon', 0.75),
  marine('T3', 'lagoon', 0.25),
  index('T3', 'basal peat', 'top', 'basal'),
  index('T3', 'basal peat', 'base', 'base_of_basal', { rootlets: 0.14 }),
  land('T3', 'twigs'),

  index('M1', 'late peat', 'base', 'intercalated', {
    age: contact(LATE_PEAT_CAL_BP.outer),
    rootlets: 0.3,
  }),
  marine('M1', 'lagoon', 0.8),
  marine('M1', 'lagoon', 0.2),
  index('M1', 'basal peat', 'top', 'basal'),
  index('M1', 'basal peat', 'base', 'base_of_basal'),
  land('M1', 'charcoal'),

  index('M2', 'late peat', 'top', 'intercalated', { age: between(4900, 3000) }),
  index('M2', 'late peat', 'base', 'intercalated', { age: contact(LATE_PEAT_CAL_BP.inner) }),
  marine('M2', 'lagoon', 0.4),
  index('M2', 'basal peat', 'top', 'basal'),
  index('M2', 'basal peat', 'base', 'base_of_basal'),
  land('M2', 'twigs'),

  {
    hole: 'M3',
    layer: 'turf',
    at: 0.5,
    material: 'charcoal',
    dated: 'plants',
    age: between(1600, 900),
    claim: 'terrestrial',
  },
  index('M3', 'basal peat', 'top', 'basal', { age: between(4600, 2000) }),
  index('M3', 'basal peat', 0.55, 'basal', { age: between(5900, 4700) }),
  index('M3', 'basal peat', 'base', 'base_of_basal', { age: contact(LATE_PEAT_CAL_BP.edge) }),
  land('M3', 'charcoal'),
];

/** Taken when the others had been dated, and numbered after them. */
export const LATER_SAMPLES: readonly SamplePlan[] = [
  {
    hole: 'T2',
    layer: 'dune',
    at: 0.12,
    material: 'quartz',
    dated: 'sand',
    age: between(2400, 2000),
    claim: 'terrestrial',
  },
];
