/** Layers of a description with their places on the page. */

import { listed } from '@stillstand/campaign/tables';
import { type Sediment, sedimentOfUnit } from '@stillstand/output/drawing';
import { baseOf, type Description, depthsOf, type Layer } from '../layers.ts';
import { coreY, type Frame } from './lanes.ts';

interface DrawnPiece {
  row_id: string;
  sediment: Sediment;
  /** On the core's side; null where the ground itself was measured. */
  core: { y1: number; y2: number } | null;
  ground: { y1: number; y2: number };
  seed: number;
}

export interface Drawn {
  layer: Layer;
  sediment: Sediment;
  pieces: DrawnPiece[];
  /** In the ground, from its top to its base. */
  y1: number;
  y2: number;
  contact: string | null;
  seen: string[];
}

/** What of the description is in the frame, from the top down. */
export function drawnIn(frame: Frame, description: Description): Drawn[] {
  const { one } = frame;
  return description.layers.flatMap((layer, i): Drawn[] => {
    const pieces = layer.pieces.filter((piece) => one === null || piece.core === one);
    if (pieces.length === 0) return [];
    const { cells } = layer.pieces[0]!.row;
    const sediment = sedimentOfUnit({
      sediment: cells['sediment'] ?? '',
      secondary_sediment: cells['secondary_sediment'] || null,
    });
    const depths = depthsOf(one === null ? layer : { ...layer, pieces });
    return [
      {
        layer,
        sediment,
        pieces: pieces.map((piece) => {
          const y1 = coreY(frame, piece.core, piece.top_m);
          const y2 = coreY(frame, piece.core, piece.bottom_m);
          return {
            row_id: piece.row.row_id,
            sediment,
            core: y1 === null || y2 === null ? null : { y1, y2 },
            ground: {
              y1: frame.depth(piece.core.depthAt(piece.top_m)),
              y2: frame.depth(piece.core.depthAt(piece.bottom_m)),
            },
            seed: i,
          };
        }),
        y1: frame.depth(depths.top_m),
        y2: frame.depth(depths.bottom_m),
        contact: pieces.includes(baseOf(layer)) ? baseOf(layer).row.cells['contact_below'] || null : null,
        seen: [
          ...new Set(
            layer.pieces.flatMap((p) => [
              ...listed(p.row.cells['structures']),
              ...listed(p.row.cells['fossils']),
            ]),
          ),
        ],
      },
    ];
  });
}
