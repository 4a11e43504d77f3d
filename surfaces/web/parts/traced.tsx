import { createContext, type ReactNode, useContext } from 'react';
import './quantity.css';

/** Opens "where does this come from?" for a number; given by the shell. */
export const TraceContext = createContext<((id: string) => void) | null>(null);

/** Wraps a number that can tell where it comes from: press, click or Enter opens its trace. */
export function Traced({ id, children }: { id: string; children: ReactNode }) {
  const open = useContext(TraceContext);
  if (open === null) return <>{children}</>;
  return (
    <button type="button" className="traced" title="Where does this come from?" onClick={() => open(id)}>
      {children}
    </button>
  );
}
