/** The states of things: shape first, then word, then colour. Drawn in a square of 16, in the colour of the text. */
import type { Severity } from '@stillstand/campaign/problems';
import { UNREACHED } from '@stillstand/output/words';
import type { ReactNode } from 'react';

function Mark({ children }: { children: ReactNode }) {
  return (
    <svg className="mark" viewBox="0 0 16 16" aria-hidden="true">
      {children}
    </svg>
  );
}

const line = { fill: 'none', stroke: 'currentColor', strokeWidth: 1.9, strokeLinecap: 'round' } as const;

/** A tick, only where something was asked. */
export const Tick = () => (
  <Mark>
    <path d="M2.5 8.5 6.5 12.5 13.5 3.5" {...line} strokeWidth={2.2} />
  </Mark>
);

/** Upright triangle. */
export const Caution = () => (
  <Mark>
    <path d="M8 1 15.5 14.5H.5Z" fill="currentColor" />
    <path d="M8 6v4M8 12.2v.1" {...line} stroke="var(--paper)" strokeWidth={1.6} />
  </Mark>
);

/** Said beside a rate whose interval no index point reaches. */
export const Unreached = () => (
  <span style={{ color: 'var(--caution)' }}>
    <Caution /> {UNREACHED}
  </span>
);

/** Octagon, reversed plate. */
export const Danger = () => (
  <Mark>
    <path d="M5 .8h6l4.2 4.2v6L11 15.2H5L.8 11V5Z" fill="currentColor" />
    <path d="M4.8 8h6.4" {...line} stroke="var(--danger)" strokeWidth={2.2} strokeLinecap="butt" />
  </Mark>
);

/** Dotted box, struck once: not used. */
const Rejected = () => (
  <Mark>
    <path d="M3 3h10v10H3Z" {...line} strokeWidth={1.4} strokeDasharray="1.5 2" strokeLinecap="butt" />
    <path d="M1 15 15 1" {...line} strokeWidth={1.5} />
  </Mark>
);

/** Broken ring: assumed. */
export const AssumedRing = () => (
  <Mark>
    <circle cx={8} cy={8} r={5.6} {...line} strokeLinecap="butt" strokeDasharray="3.52 2.344" />
  </Mark>
);

/** Two waves out of step: not converged. */
export const NotConverged = () => (
  <Mark>
    <path d="M1 5.5q3.5-5 7 0t7 0M1 10.5q3.5 5 7 0t7 0" {...line} />
  </Mark>
);

/** Cells of a table of a curve: a column more where it has not converged, so that no row can be read without it. */
export const ConvergedHead = ({ converged }: { converged: boolean }) =>
  converged ? null : <th className="n">converged</th>;
export const ConvergedCell = ({ converged }: { converged: boolean }) =>
  converged ? null : (
    <td className="n not-converged">
      <NotConverged /> no
    </td>
  );

const Note = () => (
  <Mark>
    <path d="M8 7v5M8 4v.1" {...line} />
  </Mark>
);

export function SeverityMark({ severity }: { severity: Severity }) {
  if (severity === 'danger') return <Danger />;
  if (severity === 'error') return <Rejected />;
  return severity === 'warning' ? <Caution /> : <Note />;
}
