/**
 * Two computations of a campaign, held against each other: numbers, the rows that changed, and for every changed number
 * which of these are under it. Results come as they were frozen; their campaigns are computed without the curve, which
 * takes seconds, because the trace of all that a curve is made of is known then.
 */
import type { Campaign, CampaignDocument } from '@stillstand/campaign/document';
import type { Results } from '@stillstand/campaign/results';
import type { Computation } from '@stillstand/campaign/steps';
import { type NumberChange, numberChanges } from './number-changes.ts';
import { type RowChange, rowChanges, tablesOf } from './row-changes.ts';
import { rowsUnder } from './rows-under.ts';

/** One side of a comparison. */
export interface Computed {
  results: Results;
  /** Null where results came without their campaign. */
  from: {
    document: CampaignDocument;
    campaign: Campaign;
    /** By this program; a curve in it is not looked at. */
    computation: Pick<Computation, 'results' | 'trace'>;
  } | null;
}

/** Why a number changed, as far as rows and versions say. */
export type Cause =
  /** Changed rows are under it. */
  | 'rows'
  /** None is, and the two were computed by different versions. */
  | 'program'
  /** None is, and the version is the same: a published curve, or results that are not of that campaign. */
  | 'not known'
  /** A campaign is missing. */
  | 'no campaign';

/** A number of frozen results that this program computes otherwise from the campaign that came with them. */
type Unlike = NumberChange;

export interface Comparison {
  campaigns: 'same' | 'different' | 'not stated';
  /** Versions of the computation. */
  computation: { old: string; now: string };
  /** Whether each curve has converged; null where there is none. */
  convergence: { curve: string; old: boolean | null; now: boolean | null }[];
  compared: number;
  same: number;
  rounded: number;
  changes: (NumberChange & { cause: Cause; rows: RowChange[] })[];
  /** Null where a campaign is missing. */
  rows: RowChange[] | null;
  unlike: { old: Unlike[]; now: Unlike[] };
}

/** Never throws. Comparing the other way round gives the same changes with old and new exchanged. */
export function compareComputations(old: Computed, now: Computed): Comparison {
  const { changes, ...counts } = numberChanges(old.results, now.results);
  const computation = { old: old.results.computation, now: now.results.computation };
  const rows =
    old.from === null || now.from === null ? null : rowChanges(old.from.document, now.from.document);
  const under =
    rows === null || old.from === null || now.from === null
      ? null
      : rowsUnder(rows, tracedOf(old.from), tracedOf(now.from));
  return {
    campaigns: campaignsOf(old.results, now.results),
    computation,
    convergence: convergence(old.results, now.results),
    ...counts,
    changes: changes.map((each) => {
      const below = under?.(each) ?? [];
      const none = computation.old === computation.now ? 'not known' : 'program';
      return {
        ...each,
        rows: below,
        cause: under === null ? 'no campaign' : below.length > 0 ? 'rows' : none,
      };
    }),
    rows,
    unlike: { old: unlike(old), now: unlike(now) },
  };
}

const tracedOf = ({ document, campaign, computation: { trace } }: NonNullable<Computed['from']>) => ({
  trace,
  tables: tablesOf(document),
  settings: campaign.rows.settings,
});

const campaignsOf = (old: Results, now: Results): Comparison['campaigns'] =>
  old.campaign === null || now.campaign === null
    ? 'not stated'
    : old.campaign === now.campaign
      ? 'same'
      : 'different';

function convergence(old: Results, now: Results): Comparison['convergence'] {
  const of = (results: Results): Map<string, boolean | null> =>
    new Map(results.curves.map(({ id, curve }) => [id, curve?.diagnostics.converged ?? null]));
  const [before, after] = [of(old), of(now)];
  return [...new Set([...after.keys(), ...before.keys()])].map((curve) => ({
    curve,
    old: before.get(curve) ?? null,
    now: after.get(curve) ?? null,
  }));
}

const withoutCurves = (results: Results): Results => ({ ...results, curves: [] });

function unlike({ results, from }: Computed): Unlike[] {
  if (from === null || from.computation.results === results) return [];
  return numberChanges(withoutCurves(results), withoutCurves(from.computation.results)).changes;
}
