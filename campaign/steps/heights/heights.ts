/**
 * Heights on one datum: benchmarks, levelling and datum shifts brought together to the elevation of each hole's reference
 * on the campaign datum, with what its error shares.
 */

import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { type LevelLoop, shiftBetween } from '@stillstand/science/survey';
import type { Runner } from '../runner/runner.ts';
import type { Known } from '../runner/step.ts';
import { tellBenchmark, tellReference, tellShift } from '../words/heights.ts';
import type { Elevation, ToDatum } from './elevation.ts';
import { levelLoops } from './level-loops.ts';
import { ownElevation } from './own-elevation.ts';

/** The zero everything is brought to. */
export interface CampaignDatum {
  label: string;
  /** As the table datums says; null where there is none. */
  kind: Row<'datums'>['kind'];
  epoch: string | null;
  /** Mid-year of the tidal epoch, CE; null where it is not stated. */
  mid_year_ce: number | null;
}

export interface Heights {
  datum: CampaignDatum;
  /** What brings a height on `datum` (null: already on the campaign datum) to it; null where no shift leads there. */
  shift(datum: string | null): Known<ToDatum> | null;
  /** Reference of a hole; null, with a problem, where it has none. */
  reference(hole: Row<'holes'>): Known<Elevation> | null;
  /** The loops of the level book as reduced, by their label. */
  loops: ReadonlyMap<string, LevelLoop>;
  problems: Problem[];
}

export function bringHeightsTogether(run: Runner, campaign: Campaign, wanted: string): Heights {
  const { rows } = campaign;
  const problems: Problem[] = [];
  const zero =
    rows.datums.find((d) => d.datum === wanted) ??
    rows.datums.find((d) => d.kind === 'mean_sea_level') ??
    rows.datums[0];
  const datum: CampaignDatum = {
    label: zero?.datum ?? 'as stated',
    kind: zero?.kind ?? null,
    epoch: zero?.epoch_from && zero.epoch_to ? `${zero.epoch_from}–${zero.epoch_to}` : null,
    mid_year_ce: zero?.epoch_from && zero.epoch_to ? (zero.epoch_from + zero.epoch_to) / 2 : null,
  };
  if (wanted !== '' && zero?.datum !== wanted) {
    problems.push(
      problem({
        severity: 'error',
        code: 'unknown-datum',
        table: 'settings',
        label: 'datum',
        column: 'value',
        found: wanted,
        expected: rows.datums.map((d) => d.datum).join(', ') || 'a datum',
        fix: `Choose one of the datums; ${datum.label} is used until then.`,
      }),
    );
  }

  const none: ToDatum = { shift_m: 0, shifts: [] };
  const here = run.given(traceId.campaignDatum, `datum ${datum.label}`, 'zero of all heights', none);
  const steps = rows.datum_shifts.map((s) => ({ ...s, sigma_m: s.sigma_m ?? 0 }));
  const shift: Heights['shift'] = (from) => {
    if (from === null || from === datum.label) return here;
    const path = shiftBetween(steps, from, datum.label);
    if (path === null) return null;
    const used = path.row_ids.map((id) => rows.datum_shifts.find((s) => s.row_id === id)!);
    const to: ToDatum = {
      shift_m: path.shift_m,
      shifts: used.map((s) => ({ name: `${s.from}-${s.to}`, sigma_m: s.sigma_m ?? 0 })),
    };
    return run.part(
      traceId.datum(from),
      to,
      tellShift(from, datum.label, path),
      used.map((s) => run.row('datum_shifts', s, `datum shift from ${s.from} to ${s.to}`)),
    );
  };

  const noWay = (table: string, row_id: string, label: string, from: string): void => {
    if (problems.some((p) => p.code === 'no-datum-shift' && p.row_id === row_id)) return;
    problems.push(
      problem({
        severity: 'error',
        code: 'no-datum-shift',
        table,
        row_id,
        label,
        column: 'datum',
        found: from,
        expected: `a datum shift from ${from} to ${datum.label}`,
        fix: 'Add the shift between the two datums with its sigma; until then the height is not used.',
      }),
    );
  };

  const benchmarks = new Map<string, Known<Elevation>>();
  for (const row of rows.benchmarks) {
    const own = ownElevation(row);
    if (own === null) continue;
    const to = shift(row.datum);
    if (to === null) {
      noWay('benchmarks', row.row_id, row.benchmark, row.datum ?? '');
      continue;
    }
    const elevation: Elevation = {
      value_m: own.value_m + to.value.shift_m,
      levelling_sigma_m: 0,
      group: null,
      benchmarks: own.parts,
      shifts: to.value.shifts,
    };
    benchmarks.set(
      row.benchmark,
      run.part(
        traceId.benchmark(row.benchmark),
        elevation,
        tellBenchmark(row.benchmark, own.isFromSatellite, elevation),
        [run.row('benchmarks', row, `benchmark ${row.benchmark}`), to],
      ),
    );
  }

  const levelled = levelLoops(run, campaign, benchmarks);
  problems.push(...levelled.problems);

  const reference: Heights['reference'] = (hole) => {
    const row = run.row('holes', hole, `hole ${hole.hole}`);
    const id = traceId.hole(hole.hole).reference;
    if (hole.reference_basis === 'assumed') problems.push(assumedReference(hole));
    const named = hole.reference_point ?? '';
    const [point, from] = levelled.points.has(named)
      ? [levelled.points.get(named), 'levelled' as const]
      : [benchmarks.get(named), 'benchmark' as const];
    if (point !== undefined) {
      return run.part(id, point.value, tellReference(hole, from, point.value), [row, point]);
    }
    if (hole.reference_elevation_m !== null) {
      const to = shift(hole.reference_datum);
      if (to === null) {
        noWay('holes', hole.row_id, hole.hole, hole.reference_datum ?? '');
        return null;
      }
      const elevation: Elevation = {
        value_m: hole.reference_elevation_m + to.value.shift_m,
        levelling_sigma_m: hole.reference_sigma_m,
        group: hole.reference_shared_group,
        benchmarks: [],
        shifts: to.value.shifts,
      };
      return run.part(id, elevation, tellReference(hole, 'stated', elevation), [row, to]);
    }
    problems.push(
      problem({
        severity: 'warning',
        code: 'no-reference-height',
        table: 'holes',
        row_id: hole.row_id,
        label: hole.hole,
        column: 'reference_elevation_m',
        found: hole.reference_point ?? '',
        expected: 'a levelled point, a benchmark, or the elevation of the reference',
        fix: 'Level the reference to a benchmark, or state its elevation; until then the hole has depths but no elevations.',
      }),
    );
    return null;
  };

  return { datum, shift, reference, loops: levelled.loops, problems };
}

/** No sigma is added for it: how far a reference moves between two holes has no figure to take it from. */
const assumedReference = (hole: Row<'holes'>): Problem =>
  problem({
    severity: 'note',
    code: 'reference-assumed',
    table: 'holes',
    row_id: hole.row_id,
    label: hole.hole,
    column: 'reference_basis',
    found: `a reference assumed the same as ${hole.replaces === null ? 'in the hole before' : `in ${hole.replaces}`}`,
    expected: 'a reference levelled for this hole',
    fix: 'Level it again and enter that, if the place can still be reached. It is used as stated.',
  });
