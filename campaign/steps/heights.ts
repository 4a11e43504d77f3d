/**
 * Heights on one zero: bench marks, levelling and datum shifts brought together to the elevation of each hole's
 * reference on the campaign datum, with what its error shares.
 */

import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type { Row } from '@stillstand/campaign/tables';
import { square } from '@stillstand/science/base';
import { orthometric, reduceLoop, shiftBetween } from '@stillstand/science/survey';
import type { Known, Runner } from './runner.ts';

/** The zero everything is brought to. */
export interface CampaignDatum {
  label: string;
  epoch: string | null;
  /** Mid-year of the tidal epoch, CE; null where it is not stated. */
  mid_year_ce: number | null;
}

/** An elevation on the campaign datum with the parts of its error, 1 sigma each. */
export interface Elevation {
  value_m: number;
  /** Levelling alone; null where nobody stated it. */
  levelling_sigma_m: number | null;
  /** What the levelling error is shared with beyond the hole; null: the hole only. */
  group: string | null;
  benchmarks: { benchmark: string; sigma_m: number }[];
  shifts: { name: string; sigma_m: number }[];
}

export interface Heights {
  datum: CampaignDatum;
  /** What to add to a height on `datum` (null: already on the campaign datum); null where no shift leads there. */
  shift(datum: string | null): Known<{ shift_m: number; shifts: Elevation['shifts'] }> | null;
  /** Reference of a hole; null, with a problem, where it has none. */
  reference(hole: Row<'holes'>): Known<Elevation> | null;
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
        expected: rows.datums.map((d) => d.datum).join(', ') || 'a row in datums',
        mend: `Name a datum of the table datums; ${datum.label} is used.`,
      }),
    );
  }

  const shift: Heights['shift'] = (from) => {
    if (from === null || from === datum.label) {
      return run.given(
        'datum',
        `datum ${datum.label}`,
        'zero of all heights',
        { shift_m: 0, shifts: [] },
        datum.label,
      );
    }
    const path = shiftBetween(
      rows.datum_shifts.map((s) => ({ ...s, sigma_m: s.sigma_m ?? 0 })),
      from,
      datum.label,
    );
    if (path === null) return null;
    const steps = path.row_ids.map((id) => rows.datum_shifts.find((s) => s.row_id === id)!);
    const known = steps.map((s) => run.row('datum_shifts', s, `step from ${s.from} to ${s.to}`));
    const id = `datum:${from}`;
    return run.step(
      'datum shift',
      id,
      known,
      () => ({
        shift_m: path.shift_m,
        shifts: steps.map((s) => ({ name: `${s.from}-${s.to}`, sigma_m: s.sigma_m ?? 0 })),
      }),
      (v) => ({
        id,
        label: `${from} to ${datum.label}`,
        how: 'sum of the steps between the zeros',
        value: v.shift_m,
        sigma: path.sigma_m,
        unit: 'm',
      }),
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
        expected: `a step from ${from} to ${datum.label} in datum_shifts`,
        mend: 'Add the step between the two datums with its sigma; until then the height is not used.',
      }),
    );
  };

  const benchmarks = new Map<string, Known<Elevation>>();
  for (const row of rows.benchmarks) {
    const own =
      row.elevation_m ??
      (row.ellipsoidal_height_m !== null && row.geoid_height_m !== null
        ? orthometric(
            { value_m: row.ellipsoidal_height_m, sigma_m: 0 },
            { value_m: row.geoid_height_m, sigma_m: 0 },
          ).value_m
        : null);
    if (own === null) continue;
    const to = shift(row.datum);
    if (to === null) {
      noWay('benchmarks', row.row_id, row.benchmark, row.datum ?? '');
      continue;
    }
    const id = `benchmark:${row.benchmark}`;
    const known = run.step(
      'bench mark',
      id,
      [run.row('benchmarks', row, `bench mark ${row.benchmark}`), to],
      () => ({
        value_m: own + to.value.shift_m,
        levelling_sigma_m: 0,
        group: null,
        benchmarks: [{ benchmark: row.benchmark, sigma_m: row.sigma_m ?? 0 }],
        shifts: to.value.shifts,
      }),
      (v) => ({
        id,
        label: `Bench mark ${row.benchmark}`,
        how: 'its elevation + step between datums',
        value: v.value_m,
        sigma: elevationSigma(v),
        unit: 'm',
      }),
    );
    benchmarks.set(row.benchmark, known);
  }

  const levelled = levelAll(run, campaign, benchmarks, problems);

  const reference: Heights['reference'] = (hole) => {
    const row = run.row('holes', hole, `hole ${hole.hole}`);
    const id = `hole:${hole.hole}/reference`;
    const tell = (how: string) => (v: Elevation) => ({
      id,
      label: `Reference of ${hole.hole}`,
      how,
      value: v.value_m,
      sigma: elevationSigma(v),
      unit: 'm',
    });
    const point = hole.reference_point === null ? undefined : levelled.get(hole.reference_point);
    if (point !== undefined) {
      return run.step('reference', id, [row, point], () => point.value, tell('levelled'));
    }
    if (hole.reference_elevation_m !== null) {
      const stated = hole.reference_elevation_m;
      const to = shift(hole.reference_datum);
      if (to === null) {
        noWay('holes', hole.row_id, hole.hole, hole.reference_datum ?? '');
        return null;
      }
      return run.step(
        'reference',
        id,
        [row, to],
        () => ({
          value_m: stated + to.value.shift_m,
          levelling_sigma_m: hole.reference_sigma_m,
          group: hole.reference_group,
          benchmarks: [],
          shifts: to.value.shifts,
        }),
        tell('as stated for the hole + step between datums'),
      );
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
        expected: 'a levelled point, or the elevation of the reference',
        mend: 'Level the reference to a bench mark, or state its elevation; until then the hole has depths but no elevations.',
      }),
    );
    return null;
  };

  return { datum, shift, reference, problems };
}

/** 1 sigma of an elevation, all parts together. */
export function elevationSigma(elevation: Elevation): number {
  let variance = square(elevation.levelling_sigma_m ?? 0);
  for (const part of [...elevation.benchmarks, ...elevation.shifts]) variance += square(part.sigma_m);
  return Math.sqrt(variance);
}

/** Every loop of the level book, tied to the bench marks it touches. */
function levelAll(
  run: Runner,
  campaign: Campaign,
  benchmarks: ReadonlyMap<string, Known<Elevation>>,
  problems: Problem[],
): Map<string, Known<Elevation>> {
  const levelled = new Map<string, Known<Elevation>>();
  for (const [loop, sights] of Map.groupBy(campaign.rows.levelling, (row) => row.loop)) {
    const unread = campaign.aside.filter((row) => row.table === 'levelling' && (row.label ?? loop) === loop);
    if (unread.length > 0) {
      problems.push(
        problem({
          severity: 'error',
          code: 'level-book-incomplete',
          table: 'levelling',
          row_id: unread[0]!.row_id,
          line: unread[0]!.line,
          label: `loop ${loop}`,
          found: `${unread.length} of its lines cannot be read`,
          expected: 'every line of the loop',
          mend: 'Mend the line; a loop with a gap gives wrong heights, so it gives none.',
        }),
      );
      continue;
    }
    const touched = [...new Set(sights.map((s) => s.point))].flatMap((p) => benchmarks.get(p) ?? []);
    const book = run.set(
      `levelling:${loop}`,
      `level book ${loop}`,
      sights.map((s) => run.row('levelling', s, `sight to ${s.point}`)),
    );
    const reduced = run.step(
      'levelling',
      `loop:${loop}`,
      [book, ...touched],
      () =>
        reduceLoop(
          sights,
          touched.map((known) => ({
            point: known.value.benchmarks[0]!.benchmark,
            elevation_m: known.value.value_m,
            sigma_m: known.value.benchmarks[0]!.sigma_m,
          })),
        ),
      (v) => ({
        id: `loop:${loop}`,
        label: `Loop ${loop}`,
        how: 'rise and fall, adjusted by distance',
        value: v.closures[0]?.misclosure_m ?? null,
        sigma: null,
        unit: 'm misclosure',
      }),
    );
    for (const finding of reduced.value.findings) {
      problems.push(problem({ ...finding, table: 'levelling', label: `loop ${loop}` }));
    }
    for (const point of reduced.value.points) {
      if (benchmarks.has(point.point) || levelled.has(point.point)) continue;
      const elevation: Elevation = {
        value_m: point.elevation_m,
        levelling_sigma_m: point.sigma_m,
        group: null,
        benchmarks: point.shared.map((s) => ({
          benchmark: s.point,
          sigma_m: Math.abs(s.weight) * s.sigma_m,
        })),
        shifts: touched[0]?.value.shifts ?? [],
      };
      levelled.set(
        point.point,
        run.quantity(reduced, [reduced], elevation, {
          id: `level:${point.point}`,
          label: `Levelled point ${point.point}`,
          how: `reduced in loop ${loop}, adjusted`,
          value: point.elevation_m,
          sigma: elevationSigma(elevation),
          unit: 'm',
        }),
      );
    }
  }
  return levelled;
}
