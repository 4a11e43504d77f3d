/**
 * What else depends on the ages of a hole has a say in every change of its history: heights of samples, of which a curve
 * knows what they mean. A change that is a step of a chain of the dates alone, reversible, is accepted once more with the
 * ratio of what else there is (in two stages: Christen & Fox 2005, J. Comput. Graph. Stat. 14:795–810); both together are a
 * step of the chain of all.
 */
import { exp, type RandomStream } from '@stillstand/science/base';
import type { History } from './history.ts';
import { type Saved, save, takeBack } from './saved.ts';

export interface Say {
  stream: RandomStream;
  saved: Saved;
  /** Log of what else there is, of the history as it is. */
  log: number;
  /** The same of a history just changed; and that the change was taken back. */
  ask: () => number;
  refused: () => void;
}

/** Whether a change was made, and stays. */
export function madeWithSay(history: History, say: Say, change: () => boolean): boolean {
  save(history, say.saved);
  if (!change()) return false;
  const there = say.ask();
  if (there >= say.log || say.stream.uniform() < exp(there - say.log)) {
    say.log = there;
    return true;
  }
  takeBack(history, say.saved);
  say.refused();
  return false;
}
