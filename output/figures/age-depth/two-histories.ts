/** Where the dates of a hole leave two histories possible: how likely each is, and which dates decide. */
import type { HoleHistory } from '@stillstand/campaign/results';
import { printed } from '@stillstand/output/words';
import { datesApart } from '@stillstand/science/dating';

/** "Two histories remain possible, 62 and 38 %: they differ on A-1, A-2". Of a history with two modes. */
export function twoHistories({ modes }: Pick<HoleHistory, 'modes'>): string {
  const shares = modes.map(({ probability }) => printed(100 * probability, 0)).join(' and ');
  const apart = datesApart(modes.map(({ clocks }) => clocks));
  const on = apart.length === 0 ? 'on how their dates are read' : `on ${apart.join(', ')}`;
  return `Two histories remain possible, ${shares} %: they differ ${on}`;
}
