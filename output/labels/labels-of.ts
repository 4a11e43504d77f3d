/** What stands on the labels of a campaign's samples and cores. */
import { plannedSamples, plannedWhere } from '@stillstand/campaign/chain';
import type { Campaign } from '@stillstand/campaign/document';
import type { Results } from '@stillstand/campaign/results';
import { labelCode, type Row } from '@stillstand/campaign/tables';
import { printed } from '@stillstand/output/words';

export interface Label {
  name: string;
  /** The most important first; what has no room is left off. */
  lines: string[];
  /** What the camera reads. */
  code: string;
  /** Printed under the rest where it is another than ours: a registered identifier. */
  identifier: string | null;
}

/** `planned`: samples that are not taken yet, whose labels are those they will have. */
export type Which = 'samples' | 'planned' | 'cores';

/**
 * Of one hole, or of all and of the surface where `hole` is null; in the order of the tables. In-situ depths are those of
 * the results, and left off where there are none.
 */
export function labelsOf(
  campaign: Campaign,
  results: Results | null,
  which: Which,
  hole: string | null,
): Label[] {
  const name = campaign.name;
  if (which === 'samples')
    return campaign.rows.samples
      .filter((row) => hole === null || row.hole === hole)
      .map((row) => ofSample(campaign, results, row));
  if (which === 'planned')
    return plannedSamples(campaign)
      .filter(({ row, state }) => state !== 'taken' && (hole === null || row.hole === hole))
      .map(({ row }) => ofPlanned(campaign, row));
  const ofCore = (core: { hole: string; run: string; word: string; lines: string[] }): Label => ({
    name: `${core.hole} ${core.run}`,
    lines: [`${core.word} ${core.run} of hole ${core.hole}`, ...core.lines, 'This way up', name].filter(
      Boolean,
    ),
    code: labelCode(campaign.id, { kind: 'core', hole: core.hole, run: core.run }),
    identifier: null,
  });
  const recovered = (m: number | null): string[] => (m === null ? [] : [`${printed(m, 2)} m recovered`]);
  return [
    ...campaign.rows.runs.flatMap((row) =>
      // A run that has no label has nothing to be found by; one that came up empty is no core.
      row.run === null || row.recovered_m === 0 || (hole !== null && row.hole !== hole)
        ? []
        : [ofCore({ hole: row.hole, run: row.run, word: 'Run', lines: recovered(row.recovered_m) })],
    ),
    ...campaign.rows.pushes
      .filter((row) => hole === null || row.hole === hole)
      .map((row) =>
        ofCore({
          hole: row.hole,
          run: row.push,
          word: 'Push',
          lines: [
            `${printed(row.from_m, 2)}–${printed(row.to_m, 2)} m below ground`,
            ...recovered(row.recovered_m),
          ],
        }),
      ),
  ];
}

function ofPlanned(campaign: Campaign, row: Row<'planned_samples'>): Label {
  const where = plannedWhere(row);
  const lines = [
    row.hole === null ? '' : `Hole ${row.hole}`,
    where === '' || row.top_m === null ? where : `${where} below ground`,
    row.material ?? '',
    campaign.name,
  ].filter((line) => line !== '');
  return { name: row.sample, lines, ...codeOf(campaign, row) };
}

/** A registered identifier goes before our own code: others can look it up. */
const codeOf = (
  campaign: Campaign,
  { sample, identifier }: Pick<Row<'samples'>, 'sample' | 'identifier'>,
): Pick<Label, 'code' | 'identifier'> => ({
  code: identifier ?? labelCode(campaign.id, { kind: 'sample', sample }),
  identifier,
});

function ofSample(campaign: Campaign, results: Results | null, row: Row<'samples'>): Label {
  const inSitu = results?.samples.find(({ row_id }) => row_id === row.row_id)?.depth_m?.value ?? null;
  const where = row.hole === null ? (row.site === null ? [] : [`Site ${row.site}`]) : placeWords(row);
  const depth =
    inSitu === null || row.depth_basis === 'in_situ' ? [] : [`${printed(inSitu, 2)} m below ground`];
  const lines = [...where, ...depth, row.material ?? '', campaign.name].filter((line) => line !== '');
  return { name: row.sample, lines, ...codeOf(campaign, row) };
}

/** Where it was measured, and how far along: "run R3", "0.42–0.46 m". */
export function placeWords({ hole, depth_basis, run, top_m, bottom_m }: Row<'samples'>): string[] {
  const isCore = depth_basis === 'run' || depth_basis === 'push';
  const of = `Hole ${hole}${isCore ? `, ${depth_basis} ${run ?? 'not named'}` : ''}`;
  if (top_m === null) return [of];
  const reach = `${printed(top_m, 2)}${bottom_m === null || bottom_m === top_m ? '' : `–${printed(bottom_m, 2)}`} m`;
  const along = isCore ? '' : depth_basis === 'entered' ? ' of what entered' : ' below ground';
  return [of, `${reach}${along}`];
}
