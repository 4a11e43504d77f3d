/** Two states of a campaign computed and held against each other, off the main thread. */
import { type Comparison, type Computed, compareComputations } from '@stillstand/campaign/compare';
import { type CampaignDocument, parseCampaign } from '@stillstand/campaign/document';
import { computeCampaign, curvesNeeded, type Memo } from '@stillstand/campaign/steps';
import { loadCurves } from '@stillstand/published/curves';
import { DOSE_FACTORS } from '@stillstand/published/dose-factors';

export interface CompareAsked {
  old: CampaignDocument;
  now: CampaignDocument;
  /** The curve and its rates too: it takes the time of two curves. */
  withCurve: boolean;
}

export type CompareAnswered = { kind: 'progress'; share: number } | { kind: 'done'; comparison: Comparison };

const answer = (message: CompareAnswered): void => self.postMessage(message);

self.onmessage = async ({ data: { old, now, withCurve } }: MessageEvent<CompareAsked>) => {
  // What both have in common is computed once.
  const memo: Memo = new Map();
  const half = (document: CampaignDocument, first: number): Promise<Computed> =>
    computed(document, memo, withCurve, (share) => answer({ kind: 'progress', share: first + share / 2 }));
  const before = await half(old, 0);
  answer({ kind: 'done', comparison: compareComputations(before, await half(now, 0.5)) });
};

async function computed(
  document: CampaignDocument,
  memo: Memo,
  withCurve: boolean,
  onProgress: (share: number) => void,
): Promise<Computed> {
  const { campaign, problems } = parseCampaign(document);
  const published = { curves: await loadCurves(curvesNeeded(campaign)), doseFactors: DOSE_FACTORS };
  const computation = computeCampaign(campaign, published, problems, {
    withCurve,
    memo,
    onProgress: (done, of) => onProgress(done / of),
  });
  return { results: computation.results, from: { document, campaign, computation } };
}
