/** The marks of the states and of common actions; drawn in the colour of the text they stand in. */
import type { ReactNode } from 'react';

const line = (d: string, width = 2): ReactNode => (
  <path d={d} fill="none" stroke="currentColor" strokeWidth={width} />
);

const MARKS = {
  tick: line('M3 13l6 6L21 5', 3),
  close: (
    <>
      <path d="M12 2.5L23 21.5H1Z" fill="currentColor" />
      <path d="M12 9v6.2M12 17.6v1.8" stroke="var(--mark-hole, var(--paper))" strokeWidth={2.6} />
    </>
  ),
  stop: (
    <>
      <path d="M7.6 1.5h8.8l6.1 6.1v8.8l-6.1 6.1H7.6l-6.1 -6.1V7.6z" fill="currentColor" />
      <path d="M6.5 12h11" stroke="var(--mark-hole, var(--paper))" strokeWidth={3.6} />
    </>
  ),
  assumed: (
    <circle
      cx="12"
      cy="12"
      r="8.5"
      fill="none"
      stroke="currentColor"
      strokeWidth={3}
      strokeDasharray="4.6 4.3"
    />
  ),
  unconverged: line('M2 8q5 -7 10 0t10 0M2 18q3.3 -7 6.6 0t6.6 0t6.6 0', 2.6),
  amended: line('M3 8h18M6.5 20.5l5.5 -8.5l5.5 8.5', 2.6),
  rejected: (
    <>
      <rect
        x="5"
        y="5"
        width="14"
        height="14"
        fill="none"
        stroke="currentColor"
        strokeWidth={2}
        strokeDasharray="2.6 2"
      />
      {line('M2 22L22 2', 2.6)}
    </>
  ),
  note: (
    <>
      {line('M4 4h16v16H4z')}
      {line('M12 10.5v6M12 6.8v2', 2.4)}
    </>
  ),
  // an hourglass: a reading that has lost weight by its age
  old: line('M5 3h14M5 21h14M7 3v3.5l5 5.5l5 -5.5V3M7 21v-3.5l5 -5.5l5 5.5V21', 2.2),
  history: line('M4.5 8.5a8.5 8.5 0 1 1 -1 4.5M4 3.5v5.2h5.2M12 7.5V12.4l3.4 2.2', 2.2),
  reading: <rect x="5" y="5" width="14" height="14" fill="none" stroke="currentColor" strokeWidth={2.6} />,
  sample: <path d="M12 4l9 8l-9 8l-9 -8z" fill="none" stroke="currentColor" strokeWidth={2} />,
  dated: <path d="M12 4l9 8l-9 8l-9 -8z" fill="currentColor" />,
  plus: line('M12 4v16M4 12h16', 2.6),
  minus: line('M4 12h16', 2.6),
  cross: line('M5 5l14 14M19 5l-14 14', 2.6),
  undo: line('M9 5L4 10l5 5M4 10h9.5a5.5 5.5 0 0 1 0 11H8', 2.4),
  redo: line('M15 5l5 5l-5 5M20 10h-9.5a5.5 5.5 0 0 0 0 11H16', 2.4),
  help: line('M8.2 8.8a3.9 3.9 0 1 1 5.6 3.5c-1.3 .7 -1.8 1.4 -1.8 2.9M12 18v2.4', 2.6),
  night: (
    <path
      d="M19.5 14.5A8.5 8.5 0 0 1 9.5 4.5a8.5 8.5 0 1 0 10 10z"
      fill="none"
      stroke="currentColor"
      strokeWidth={2.4}
    />
  ),
  day: (
    <>
      <circle cx="12" cy="12" r="4.2" fill="none" stroke="currentColor" strokeWidth={2.4} />
      {line(
        'M12 1.5v3.2M12 19.3v3.2M1.5 12h3.2M19.3 12h3.2M4.6 4.6l2.2 2.2M17.2 17.2l2.2 2.2M19.4 4.6l-2.2 2.2M6.8 17.2l-2.2 2.2',
        2.2,
      )}
    </>
  ),
  menu: line('M3 6h18M3 12h18M3 18h18', 2.6),
  open: line('M3 19V5h6l2 3h10v11zM3 12h18', 2),
  save: line('M12 3v12M12 15l-5 -5M12 15l5 -5M4 20h16', 2.4),
  remove: line('M4 7h16M9 7V4h6v3M6 7l1 14h10l1 -14', 2),
  // two strands that become one
  merge: line('M3 4h4c4 0 4 8 8 8h6M3 20h4c4 0 4 -8 8 -8M17.5 8l4 4l-4 4', 2.4),
  up: line('M12 21V4M12 4l-7 7.5M12 4l7 7.5', 2.6),
  down: line('M12 3v17M12 20l-7 -7.5M12 20l7 -7.5', 2.6),
  on: line('M8 4l8 8l-8 8', 2.6),
  water: line('M3 9q2.25 -3 4.5 0t4.5 0t4.5 0t4.5 0M3 15q2.25 -3 4.5 0t4.5 0t4.5 0t4.5 0'),
  photo: (
    <>
      {line('M3 7h5l1.5 -2.5h5L16 7h5v12H3z')}
      <circle cx="12" cy="13" r="3.6" fill="none" stroke="currentColor" strokeWidth={2} />
    </>
  ),
  sound: (
    <>
      {line('M12 2v10')}
      <path d="M12 11l4.5 3.5l-4.5 8l-4.5 -8z" fill="currentColor" />
    </>
  ),
  stroke: line('M12 3v18M12 3l-4 4.5M12 3l4 4.5M12 21l-4 -4.5M12 21l4 -4.5'),
} as const;

export type MarkName = keyof typeof MARKS;

/** A mark. With `label` it is read out; without, it is decoration beside a word. */
export function Mark({ name, size = 24, label }: { name: MarkName; size?: number; label?: string }) {
  return (
    <svg
      className="mark"
      viewBox="0 0 24 24"
      width={size}
      height={size}
      role={label === undefined ? undefined : 'img'}
      aria-hidden={label === undefined ? true : undefined}
      aria-label={label}
    >
      {label === undefined ? null : <title>{label}</title>}
      {MARKS[name]}
    </svg>
  );
}
