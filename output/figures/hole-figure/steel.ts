/** What the drawings of one hole share: inks the other figures do not need, and the size of pipe on paper. */

import type { Sediment, Theme } from '@stillstand/output/drawing';
import { atLeast, atMost } from '@stillstand/science/base';

/** The danger ink of each theme, as in the screen's tokens. */
export const DANGER: Record<Theme, string> = { print: '#9E150C', day: '#9E150C', night: '#FF5B45' };

/** What stands in the string before anybody has seen it: a tint and a few dots, no claim on its kind. */
export const UNSEEN: Sediment = {
  name: 'not yet seen',
  adjective: '',
  fgdc: null,
  glyphs: ['sparse_dots'],
  tint: 'soil',
  grain: 0,
  accent: null,
};

/** Half widths of the pipe, outside and inside, points, in the drawing to scale; its width is not to scale. */
export const PIPE = { outer: 9, inner: 6.8, coupling: 10.4, sampler: 4 } as const;

export const metres = (m: number): string => `${m < -0.004 ? '−' : ''}${Math.abs(m).toFixed(2)}`;

/** Never more than it is: the shoe and the stop, which the tip must not pass. */
export const metresMost = (m: number): string => metres(atMost(m, 2));

/** Never less than it is: how far down the tip hangs. */
export const metresLeast = (m: number): string => metres(atLeast(m, 2));
