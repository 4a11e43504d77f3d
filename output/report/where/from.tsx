/** A number of the page that says where it comes from: a link to its place among the answers at the end of the page. */
import { type TraceId, traceId } from '@stillstand/campaign/results';
import { createContext, type ReactNode, useContext } from 'react';
import type { WhereFrom } from './where-from.ts';

/** What the page asks, in the order it asks it; the answers are written once the rest of the page is. */
export interface Asked {
  where: WhereFrom;
  /** Name of the curve whose numbers are being written; null for that of the report. */
  curve: string | null;
  /** Names asked for. */
  ids: Set<TraceId>;
}

/** Null: the page answers nothing. */
export const AskedContext = createContext<Asked | null>(null);

/** Fit for the fragment of an address, and back to no other name. */
export const anchorOf = (id: TraceId): string => `from-${encodeURIComponent(id)}`;

/** The number as it is, where nothing is known of it. */
export function From({ id, children }: { id: TraceId | null; children: ReactNode }) {
  const asked = useContext(AskedContext);
  if (asked === null || id === null) return children;
  const name = traceId.seenFrom(asked.curve, id);
  if (asked.where.node(name) === null) return children;
  asked.ids.add(name);
  return (
    <a className="from" href={`#${anchorOf(name)}`}>
      {children}
    </a>
  );
}
