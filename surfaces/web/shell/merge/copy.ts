/** A copy of a campaign that came in a file, on its way into the campaign it is a copy of. */
import { createContext, useContext } from 'react';
import type { Arrived } from '../../store/index.ts';
import type { Route } from '../route.ts';

/** In the address, where a stage stands otherwise. */
export const MERGE_PAGE = 'merge';

/** The copy whose merge is looked at. */
export interface Copy {
  arrived: Arrived;
  /** The campaign that it is merged into. */
  into: string;
  /** Where the person was. */
  from: Route;
  /** Called once it is merged. */
  whenKept: () => void;
}

/** A campaign of this device. */
export interface Target {
  id: string;
  name: string;
  package_id: string | null;
  read_only: boolean;
}

export interface Arrivals {
  /** Null where none is at hand: not chosen yet, or the page was loaded again. */
  copy: Copy | null;
  /**
   * Takes a file in; into the open campaign where that is given. The campaign's id, or null where a person is asked.
   * `whenKept` is called once the device has it, as a campaign or merged.
   */
  bring: (file: Blob, into?: Target | null, whenKept?: () => void) => Promise<string | null>;
  /** Leaves the merge for where the person was. */
  leave: () => void;
}

export const ArrivalsContext = createContext<Arrivals | null>(null);

export function useArrivals(): Arrivals {
  const arrivals = useContext(ArrivalsContext);
  if (arrivals === null) throw new RangeError('useArrivals outside the app');
  return arrivals;
}
