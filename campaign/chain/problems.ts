/** What is wrong with the samples of a campaign and their chain, as problems. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { custodyProblems } from './custody-problems.ts';
import { type Overlap, sampleOverlaps } from './overlaps.ts';
import { plannedSamples, plannedWhere } from './planned.ts';

type Tables = Pick<Campaign, 'rows' | 'lines'>;

/** Everything is used as entered. */
export const chainProblems = (campaign: Tables): Problem[] => [
  ...missed(campaign),
  ...overlapping(campaign),
  ...custodyProblems(campaign),
];

function missed(campaign: Tables): Problem[] {
  return plannedSamples(campaign).flatMap(({ row, state }) => {
    if (state !== 'missed') return [];
    const where = plannedWhere(row);
    return [
      problem({
        // It may be planned from a core in store: nothing is wrong with the data.
        severity: 'note',
        code: 'planned-sample-missed',
        table: 'planned_samples',
        row_id: row.row_id,
        line: campaign.lines.get(row.row_id) ?? null,
        label: row.sample,
        column: 'sample',
        found: `no sample ${row.sample}, and hole ${row.hole} has ended`,
        expected: `a sample with this label${where === '' ? '' : `, planned at ${where}`}`,
        fix: 'Take it from a core in store, give it another hole, or delete the planned sample.',
      }),
    ];
  });
}

/** Each sample is named once, with the first that it overlaps: ten of one depth are nine problems, not forty-five. */
function overlapping(campaign: Tables): Problem[] {
  return [...Map.groupBy(sampleOverlaps(campaign), ({ second }) => second)].map(([second, overlaps]) => {
    const [{ first, from_m, to_m }, ...others] = overlaps as [Overlap, ...Overlap[]];
    const at =
      to_m - from_m > 0.0005 ? `${from_m.toFixed(3)}–${to_m.toFixed(3)} m` : `${from_m.toFixed(3)} m`;
    const core = second.depth_basis === 'run' || second.depth_basis === 'push';
    const of = core ? `${second.depth_basis} ${second.run ?? 'not named'} of ` : '';
    return problem({
      severity: 'warning',
      code: 'samples-overlap',
      table: 'samples',
      row_id: second.row_id,
      line: campaign.lines.get(second.row_id) ?? null,
      label: second.sample,
      column: 'top',
      found: `${first.sample} and ${second.sample}, both from ${at} of ${of}hole ${second.hole}${others.length === 0 ? '' : `; ${others.length} more there`}`,
      expected: 'samples that do not share their depths',
      fix: `Correct the depths of one, or name ${first.sample} as the parent of ${second.sample}. Both are used as entered.`,
    });
  });
}
