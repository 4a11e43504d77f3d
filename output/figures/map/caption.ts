/** What captions say of a map: its coast and grounds, and what has no place on it. */
import { counted } from '@stillstand/output/words';
import type { MapLayout } from './layout.ts';

export const shapesInWords = ({ coasts, hachures, grounds }: MapLayout): string[] => [
  ...(coasts.length === 0
    ? []
    : [
        `Solid line: coast${hachures.length === 0 ? ', the side of the sea not stated' : '; hachures on the side of the sea'}.`,
      ]),
  ...(grounds.every(({ rings }) => rings.length === 0) ? [] : ['Dotted: named grounds.']),
];

export function leftOffInWords({ holes }: MapLayout, unplaced: readonly string[]): string[] {
  const unnamed = holes.filter(({ name }) => name === null).length;
  return [
    ...(unplaced.length === 0 ? [] : [`Without coordinates, not on the map: ${unplaced.join(', ')}.`]),
    ...(unnamed === 0 ? [] : [`${counted(unnamed, 'hole has', 'holes have')} no room for a name here.`]),
  ];
}
