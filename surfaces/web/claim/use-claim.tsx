/** A computed point while it is edited: its claim as of now, and the budget that edits it. */
import type { Campaign } from '@stillstand/campaign/document';
import type { PointResult, Results } from '@stillstand/campaign/results';
import { type DeclaredError, levelThen, type SiteTideLevel } from '@stillstand/science/points';
import { type ReactNode, useMemo, useState } from 'react';
import { useUnsaved } from '../parts/index.ts';
import type { DocRow } from '../store/index.ts';
import { Budget } from './budget.tsx';
import { type Claim, claimAtOnce, type Meaning, tideOf, tideThenOf } from './claim.ts';

const KINDS: readonly PointResult['kind'][] = ['index', 'terrestrial', 'marine'];

interface ClaimNow {
  claim: Claim;
  meaning: Meaning;
  /** Of the time of the point. */
  tide: readonly SiteTideLevel[];
  site: string | null;
  budget: ReactNode;
}

export function useClaim(row: DocRow, point: PointResult, results: Results, campaign: Campaign): ClaimNow {
  const [hand, setHand] = useState<{ edited: DeclaredError; written: PointResult | null } | null>(null);
  useUnsaved(hand !== null && hand.written === null);
  // What was written down stays in sight until newer results have it.
  const edited = hand === null || (hand.written !== null && hand.written !== point) ? null : hand.edited;
  const site = results.samples.find((sample) => sample.sample === point.sample)?.site ?? null;
  const datum = results.datum.label;
  const tide = useMemo(() => tideOf(campaign, site, datum), [campaign, site, datum]);
  const meaning: Meaning = {
    kind: KINDS.find((kind) => kind === row.cells['kind']?.trim()) ?? point.kind,
    lower: row.cells['lower'] ?? '',
    upper: row.cells['upper'] ?? '',
  };
  const then = tideThenOf(point, tide, results.datum.kind);
  const claim = claimAtOnce(point, meaning, edited, tide, site, then);
  const budget = (
    <Budget
      point={point}
      edited={edited}
      onEdit={(to) => setHand(to === null ? null : { edited: to, written: null })}
      onWritten={(to) => setHand({ edited: to, written: point })}
      parts={claim.ok ? claim.components : point.components}
    />
  );
  return {
    claim,
    meaning,
    tide: then === null ? tide : tide.map((level) => levelThen(level, then)),
    site,
    budget,
  };
}
