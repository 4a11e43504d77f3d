/**
 * Dates of one hole that contradict their depths. Compared are only samples whose depths do not overlap, and only dates
 * that are in use and date their layer; nothing is decided here.
 */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { probabilityOlder } from '@stillstand/science/dating';
import { complaints } from '../complaint.ts';
import type { Samples } from '../hole/samples.ts';
import { type Dated, type Dates, roleOf } from './dates.ts';

/** Below this probability that the lower is the older, two dates contradict each other. */
const DOUBTFUL = 0.025;

interface Placed {
  row: Row<'determinations'>;
  date: Dated['result'];
  /** 95 % of its depth, thickness included, m below ground. */
  top_m: number;
  bottom_m: number;
}

export function outOfOrder(campaign: Campaign, samples: Samples, dates: Dates): Problem[] {
  const { problems, complain } = complaints<Row<'determinations'>>(
    campaign,
    'determinations',
    (r) => r.lab_code,
  );
  const placed = campaign.rows.determinations.flatMap((row): (Placed & { hole: string })[] => {
    const date = dates.of.get(row.lab_code)?.value;
    const sample = samples.of.get(row.sample)?.value;
    const depth = sample?.result.depth_m ?? null;
    const isOfLayer = roleOf(row) === 'direct' && date?.age !== null && !dates.repeats.has(row.lab_code);
    if (date === undefined || depth === null || sample === undefined || sample.hole === null || !isOfLayer)
      return [];
    const half = (sample.thickness_m ?? 0) / 2;
    const { hole } = sample;
    return [{ row, hole, date: date.result, top_m: depth.lower95 - half, bottom_m: depth.upper95 + half }];
  });
  for (const [hole, ofHole] of Map.groupBy(placed, (each) => each.hole)) {
    let pairs = contradictions(ofHole);
    while (pairs.length > 0) {
      // One date out of place contradicts many: it is named once, with them.
      const counts = ofHole.map((each) => pairs.filter((pair) => pair.includes(each)).length);
      const odd = ofHole[counts.indexOf(Math.max(...counts))]!;
      const against = pairs.filter((pair) => pair.includes(odd));
      const others = against.map(([upper, lower]) => (upper === odd ? lower : upper));
      const isUpper = against.every(([upper]) => upper === odd);
      const isLower = against.every(([, lower]) => lower === odd);
      const side = isUpper ? 'below it' : isLower ? 'above it' : 'above and below it';
      complain(
        odd.row,
        'date-out-of-order',
        'value',
        `${Math.round(odd.date.median_cal_bp)} cal BP in ${hole}; ${side} ${others.map(told).join(', ')}`,
        `the lower to be the older (here each probability is below ${DOUBTFUL})`,
        'Roots, burrows and young carbon make a date too young, reworked and old carbon too old: look at the samples. Reject a date with its reason, say that it is a maximum or minimum age, or keep it knowingly.',
        'warning',
      );
      pairs = pairs.filter((pair) => !pair.includes(odd));
    }
    for (const [first, second] of unlike(ofHole)) {
      complain(
        second.row,
        'dates-of-one-sample-differ',
        'value',
        `${told(second)} cal BP; ${told(first)} of the same sample ${first.row.sample}`,
        `one age for one sample (here either is the older with a probability above ${1 - DOUBTFUL / 2})`,
        'Reject one with its reason, or name in the point which of them is meant.',
        'warning',
      );
    }
  }
  return problems;
}

/** Two dates of one sample that can hardly be of one age; those pooled have their own test. */
function unlike(ofHole: readonly Placed[]): (readonly [Placed, Placed])[] {
  return ofHole.flatMap((second, i) =>
    ofHole.slice(0, i).flatMap((first) => {
      if (first.row.sample !== second.row.sample) return [];
      if (first.row.pool_group !== null && first.row.pool_group === second.row.pool_group) return [];
      const p = probabilityOlder(first.date, second.date);
      return Math.min(p, 1 - p) < DOUBTFUL / 2 ? [[first, second] as const] : [];
    }),
  );
}

const told = ({ row, date }: Placed): string => `${row.lab_code} of ${Math.round(date.median_cal_bp)}`;

/** Upper and lower of each two that are hardly in the order of their depths. */
function contradictions(ofHole: readonly Placed[]): (readonly [upper: Placed, lower: Placed])[] {
  return ofHole.flatMap((lower) =>
    ofHole
      .filter((upper) => upper.bottom_m < lower.top_m && probabilityOlder(lower.date, upper.date) < DOUBTFUL)
      .map((upper) => [upper, lower] as const),
  );
}
