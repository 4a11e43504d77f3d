/** Asks the tide's worker while something is shown; a new question, or its end, gives up the old one. */
import { useEffect, useState } from 'react';
import type { TideAnswered, TideAsked } from './tide.worker.ts';

/** Undefined while it is computed; `asked` must stay the same object until it changes. */
export function useTideSum(asked: TideAsked | null): TideAnswered | undefined {
  const [answer, setAnswer] = useState<{ asked: TideAsked; answered: TideAnswered } | null>(null);
  useEffect(() => {
    if (asked === null) return;
    const worker = new Worker(new URL('./tide.worker.ts', import.meta.url), { type: 'module' });
    worker.onmessage = ({ data }: MessageEvent<TideAnswered>) => setAnswer({ asked, answered: data });
    worker.postMessage(asked);
    return () => worker.terminate();
  }, [asked]);
  return answer !== null && answer.asked === asked ? answer.answered : undefined;
}
