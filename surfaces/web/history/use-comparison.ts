/** Asks the worker to compare while the page is shown; a new question, or its end, gives up the old one. */
import type { Comparison } from '@stillstand/campaign/compare';
import type { CampaignDocument } from '@stillstand/campaign/document';
import { useEffect, useState } from 'react';
import type { CompareAnswered, CompareAsked } from './compare.worker.ts';

export type Compared =
  | { readonly state: 'computing'; readonly share: number }
  | { readonly state: 'failed'; readonly words: string }
  | { readonly state: 'done'; readonly comparison: Comparison };

/** `old` and `now` stay the same objects until they change. */
export function useComparison(old: CampaignDocument, now: CampaignDocument, withCurve: boolean): Compared {
  const [compared, setCompared] = useState<Compared>({ state: 'computing', share: 0 });
  useEffect(() => {
    setCompared({ state: 'computing', share: 0 });
    const worker = new Worker(new URL('./compare.worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<CompareAnswered>) =>
      setCompared((before) => {
        if (data.kind === 'done') return { state: 'done', comparison: data.comparison };
        // Each of several curves starts from nothing: the share shown does not fall back.
        const share = before.state === 'computing' ? Math.max(before.share, data.share) : data.share;
        return { state: 'computing', share };
      });
    worker.onerror = ({ message }: { message?: string }) =>
      setCompared({ state: 'failed', words: message ?? 'a part of the app did not load' });
    worker.postMessage({ old: bare(old), now: bare(now), withCurve } satisfies CompareAsked);
    return () => worker.terminate();
  }, [old, now, withCurve]);
  return compared;
}

/** The bytes as read are of no use to a computation. */
const bare = (document: CampaignDocument): CampaignDocument => ({
  ...document,
  source: null,
  files: new Map(),
  tables: new Map([...document.tables].map(([name, table]) => [name, { ...table, source: null }])),
});
