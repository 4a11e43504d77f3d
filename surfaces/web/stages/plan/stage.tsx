import type { StageProps } from '../index.ts';
export function Stage(_: StageProps) {
  return null;
}
