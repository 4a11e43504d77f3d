/** Numbers and words as the page sets them, and lists without keys: the page is written once and never updated. */
import { type ErrorComponent, isAssumed, type TraceId } from '@stillstand/campaign/results';
import { decimalsFor, partName, printed, signed } from '@stillstand/output/words';
import { createElement, Fragment, type ReactNode } from 'react';
import { AssumedRing } from './marks.tsx';
import { From } from './where/from.tsx';

/** The children for each item. */
export function each<Item>(
  items: readonly Item[],
  child: (item: Item, index: number) => ReactNode,
): ReactNode {
  return createElement(Fragment, null, ...items.map(child));
}

/** Two cells of a row: a value, and ± its 2 sd. Heights and rates show their sign. */
export function ValueCells(props: {
  value: number | null;
  twoSigma: number | null;
  least?: number;
  unsigned?: boolean;
  /** Its name in the trace. */
  from?: TraceId;
}) {
  const { value, twoSigma, least = 2, unsigned = false, from = null } = props;
  const decimals = decimalsFor(twoSigma ?? Number.NaN, least, Math.max(least, 2));
  return (
    <>
      <td className="n">
        <From id={from}>{(unsigned ? printed : signed)(value, decimals)}</From>
      </td>
      <td className="pm">{twoSigma === null ? '' : `±${printed(twoSigma, decimals)}`}</td>
    </>
  );
}

/** A figure nobody measured or chose: broken underline, and the ring. */
export function Assumed({ children }: { children: ReactNode }) {
  return (
    <span className="nb">
      <AssumedRing /> <span className="assumed">{children}</span>
    </span>
  );
}

/** Names in the data are written with underscores; people read words. */
export const words = (name: string): string => name.replaceAll('_', ' ');

/** Name of an error part, marked where it is assumed. */
export function PartName({ part }: { part: ErrorComponent }) {
  const name = partName(part.component);
  return isAssumed(part) ? <Assumed>{name}</Assumed> : name;
}
