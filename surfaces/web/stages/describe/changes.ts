/** What is done to the description of a hole, from its drawing and its panel alike: each one step of undo, said aloud. */
import { useState } from 'react';
import { useStore } from '../../store/index.ts';
import type { Described } from './described.ts';
import type { Chosen, Moving } from './drawing/drawing.tsx';
import { carryOut, type Edit, mergeLayers, moveContact } from './edits.ts';
import { type Contact, type Layer, layerOf } from './layers.ts';
import type { Movement } from './moving.ts';
import { moveSample, type PlacedSample } from './samples.ts';

export interface Changes {
  /** What was done last, in words. */
  said: string;
  /** Row_ids of what was added; none where it was refused. */
  act: (edits: readonly Edit[], words: string) => string[];
  moveContact: (contact: Contact, to_m: number, how: Moving, typed?: string) => void;
  moveSample: (sample: PlacedSample, middle_m: number, how: Moving) => void;
  /** The lower of two units becomes part of the upper. */
  merge: (upper: Layer | null, lower: Layer | null) => void;
  mergeAt: (contact: Contact) => void;
}

export function useChanges(
  { hole, description: d }: Described,
  movement: Movement,
  onChoose: (chosen: Chosen) => void,
): Changes {
  const store = useStore();
  const [said, setSaid] = useState('');
  const act = (edits: readonly Edit[], words: string): string[] => {
    movement.settle();
    const added = carryOut(store, edits);
    setSaid(added === null ? '' : words);
    return added ?? [];
  };
  const merge = (upper: Layer | null, lower: Layer | null): void => {
    if (upper === null || lower === null || upper === lower) return;
    act(
      mergeLayers(upper, lower, hole.hole, store.rows('correlations')),
      `Units ${upper.label} and ${lower.label} are now unit ${upper.label}. Undo parts them again.`,
    );
    onChoose({ kind: 'layer', id: lower.id });
  };
  return {
    said,
    act,
    moveContact: (contact, to_m, how, typed) => movement.move(moveContact(contact, to_m, typed), how),
    moveSample: (sample, middle_m, how) => movement.move(moveSample(sample, middle_m), how),
    merge,
    mergeAt: ({ above, below }) => {
      if (above !== null && below !== null) {
        merge(layerOf(d, above.row.row_id), layerOf(d, below.row.row_id));
      }
    },
  };
}
