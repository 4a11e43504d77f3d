/** "3 numbers on this page changed by driller, tablet B": until it is dismissed, looked at, or something is done here. */
import { createContext, useContext, useSyncExternalStore } from 'react';
import { Button, counted, Mark } from '../../parts/index.ts';
import type { Arrivals } from './changed-numbers.ts';

export const ArrivalsContext = createContext<Arrivals | null>(null);

const never = () => () => undefined;

export function ArrivalNewsLine() {
  const arrivals = useContext(ArrivalsContext);
  const news = useSyncExternalStore(arrivals?.subscribe ?? never, () => arrivals?.news() ?? null);
  if (arrivals === null || news === null) return null;
  const [first] = news.numbers;
  return (
    <p className="arrived">
      <Mark name="amended" size={20} />
      <span>
        {counted(news.numbers.length, 'number')} on this page changed by {news.writers}
      </span>
      <Button
        onClick={() => {
          first?.element?.scrollIntoView({ block: 'center' });
          first?.element?.focus();
        }}
      >
        Show
      </Button>
      <Button kind="bare" mark="cross" aria-label="Close message" onClick={arrivals.dismiss} />
    </p>
  );
}
