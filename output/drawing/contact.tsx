/** The boundary between two units: line sharp, dashes gradational, wave erosional, dots uncertain. */
import { LINE, useInk } from './ink.ts';
import { horizontal, wave } from './path.ts';

export function Contact({ kind, x1, x2, y }: { kind: string | null; x1: number; x2: number; y: number }) {
  const ink = useInk();
  // Narrow columns get a finer wave.
  const half = Math.min(4, (x2 - x1) / 6);
  const common = { fill: 'none', stroke: ink.ink } as const;
  switch (kind) {
    case 'gradational':
      return <path {...common} d={horizontal(x1, x2, y)} strokeWidth={0.75} strokeDasharray="4.6 3" />;
    case 'erosional':
      return <path {...common} d={wave(x1, x2, y, half, half * 0.275)} strokeWidth={LINE.bold} />;
    case 'uncertain':
      return (
        <path
          {...common}
          d={horizontal(x1, x2, y)}
          strokeWidth={1}
          strokeLinecap="round"
          strokeDasharray="0.01 2.4"
        />
      );
    case 'sharp':
      return <path {...common} d={horizontal(x1, x2, y)} strokeWidth={LINE.bold} />;
    default:
      return <path {...common} d={horizontal(x1, x2, y)} strokeWidth={LINE.fine} />;
  }
}
