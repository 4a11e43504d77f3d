/** What environments through time lack, in the rows that could say it. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { HoleResult } from '@stillstand/campaign/results';
import { listed, type Row, sameName } from '@stillstand/campaign/tables';
import { complaints } from '../complaint.ts';

/** Layers without a word of where they formed; “not known” is one. */
export function complainOfUnsaid(campaign: Campaign, holes: readonly HoleResult[]): Problem[] {
  const { complain, problems } = complaints<Row<'units'>>(
    campaign,
    'units',
    ({ hole, unit }) => `${hole}${unit === null ? '' : `, ${unit}`}`,
  );
  for (const { hole, units } of holes) {
    const unsaid = units.filter(({ environment }) => sameName(environment) === '');
    const row = campaign.rows.units.find(({ row_id }) => row_id === unsaid[0]?.row_id);
    if (row === undefined) continue;
    complain(
      row,
      'environment-not-said',
      'environment',
      `${unsaid.length} of ${units.length} layers of ${hole} without one`,
      'where a layer formed, or “not known”',
      'Choose its environment in Describe. Until then what was there at its time is left open.',
      'note',
    );
  }
  return problems;
}

/** Names on the inner side of the edge that no layer has, where somebody wrote them. */
export function complainOfEdge(campaign: Campaign, holes: readonly HoleResult[]): Problem[] {
  const row = campaign.rows.settings.find(({ name }) => name === 'edge_inside');
  if (row === undefined || row.value.trim() === '') return [];
  const met = new Set(holes.flatMap(({ units }) => units.map(({ environment }) => sameName(environment))));
  const names = listed(row.value);
  const unmet = names.filter((name) => !met.has(sameName(name)));
  if (unmet.length === 0) return [];
  return [
    problem({
      severity: unmet.length === names.length ? 'warning' : 'note',
      code: 'edge-not-met',
      table: 'settings',
      row_id: row.row_id,
      line: campaign.lines.get(row.row_id) ?? null,
      label: 'edge_inside',
      column: 'value',
      found: unmet.join('; '),
      expected: `environments of layers: ${[...met].filter((name) => name !== '').join('; ')}`,
      fix: 'Write them as the layers do, separated by ;. The others are followed.',
    }),
  ];
}
