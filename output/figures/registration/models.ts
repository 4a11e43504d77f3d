/** The depth models of a hole side by side: ours first, then its alternative_models. */
import type { AlternativeModel, Estimate, HoleResult } from '@stillstand/campaign/results';

/** Above so many sd the soundings reject a model. */
export const REJECTS_SD = 2;

export interface Model {
  kind: 'decaying' | AlternativeModel['model'];
  name: string;
  /** [entered, depth], metres, from the ground down. */
  line: readonly (readonly [number, number])[];
  /** Ground that it says did not enter, metres. */
  flat: readonly { top_m: number; bottom_m: number }[];
  /** Where it has each unit, by the unit's row. Rivals have no errors of their own. */
  units: ReadonlyMap<string, { top: Estimate; bottom: Estimate }>;
  /** Null for ours. */
  rival: AlternativeModel | null;
}

const exactly = (value: number): Estimate => ({ value, sigma: 0, lower95: value, upper95: value });

const NAMES = { uniform: 'uniform', all_at_top: 'all at the top' } as const;

export function models(hole: HoleResult): Model[] {
  const { depth } = hole;
  const ours: Model[] =
    depth === null
      ? []
      : [
          {
            kind: 'decaying',
            name: 'this model',
            line: Array.from(depth.entered_m, (entered, i) => [entered, depth.median_m[i]!] as const),
            flat: hole.not_represented,
            units: new Map(
              hole.units.map((u) => [u.row_id, { top: u.depth_top_m, bottom: u.depth_bottom_m }]),
            ),
            rival: null,
          },
        ];
  return [
    ...ours,
    ...hole.alternative_models.map(
      (rival): Model => ({
        kind: rival.model,
        name: NAMES[rival.model],
        line: rival.line.map(({ entered_m, depth_m }) => [entered_m, depth_m] as const),
        flat: rival.line.slice(1).flatMap(({ entered_m, depth_m }, i) => {
          const above = rival.line[i]!;
          return entered_m === above.entered_m ? [{ top_m: above.depth_m, bottom_m: depth_m }] : [];
        }),
        units: new Map(
          rival.units.map((u) => [
            u.row_id,
            { top: exactly(u.depth_top_m), bottom: exactly(u.depth_bottom_m) },
          ]),
        ),
        rival,
      }),
    ),
  ];
}

/** How a model's line is drawn, everywhere the same. */
export const STROKE: Record<Model['kind'], { width: number; dash: string | undefined }> = {
  decaying: { width: 1.4, dash: undefined },
  uniform: { width: 1, dash: '5 2.4' },
  all_at_top: { width: 1, dash: '1.6 1.8' },
};
