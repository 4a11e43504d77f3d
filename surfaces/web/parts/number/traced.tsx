import type { TraceId } from '@stillstand/campaign/results';
import { createContext, type ReactNode, useContext } from 'react';
import { t } from '../../language/index.ts';
import './quantity.css';

/** Opens "where does this come from?" for a number; given by the shell. */
export const TraceContext = createContext<((id: TraceId) => void) | null>(null);

/** Wraps a number that can tell where it comes from: press, click or Enter opens its trace. Null: it has none. */
export function Traced({ id, children }: { id: TraceId | null; children: ReactNode }) {
  const open = useContext(TraceContext);
  if (open === null || id === null) return <>{children}</>;
  return (
    <button type="button" className="traced" title={t`Where does this come from?`} onClick={() => open(id)}>
      {children}
    </button>
  );
}
