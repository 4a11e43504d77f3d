/** Tide levels of the sites on the campaign datum: as stated, and computed from a gauge where nothing is stated. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type SiteTideResult, traceId } from '@stillstand/campaign/results';
import { type Row, TIDE_LEVELS } from '@stillstand/campaign/tables';
import { inQuadrature } from '@stillstand/science/base';
import type { SiteTideLevel } from '@stillstand/science/points';
import { complaints } from '../complaint.ts';
import type { Runner } from '../runner/runner.ts';
import type { Known } from '../runner/step.ts';
import { inMetres } from '../words/numbers.ts';
import { tellComputedLevel, tellTideLevel } from '../words/tide.ts';
import { computedLevels } from './computed-levels.ts';
import type { Heights } from './heights.ts';
import type { ComputedLevel } from './levels-asked.ts';

export interface SiteLevels {
  of(site: string | null): readonly Known<SiteTideLevel>[];
  made: SiteTideResult[];
  problems: Problem[];
}

type LevelResult = SiteTideResult['levels'][number];
interface Level {
  known: Known<SiteTideLevel>;
  result: LevelResult;
}

export function siteLevels(run: Runner, campaign: Campaign, heights: Heights): SiteLevels {
  const { rows } = campaign;
  const { problems, complain } = complaints<Row<'tide_levels'>>(
    campaign,
    'tide_levels',
    (row) => `${row.level} at ${row.site}`,
  );
  const statedOf = new Map<string, Level[]>();
  for (const row of rows.tide_levels) {
    const to = heights.shift(row.datum);
    if (to === null) continue;
    const level: SiteTideLevel = {
      level: row.level,
      elevation_m: row.elevation_m + to.value.shift_m,
      sigma_m: row.sigma_m,
    };
    const known = run.part(traceId.tide(row.site, row.level), level, tellTideLevel(row, level), [
      run.row('tide_levels', row, `${row.level} at ${row.site}`),
      to,
    ]);
    statedOf.set(row.site, [
      ...(statedOf.get(row.site) ?? []),
      { known, result: resultOf(row.row_id, 'stated', level) },
    ]);
  }
  const stated = (site: string, level: string): Level | undefined =>
    statedOf.get(site)?.find(({ known }) => known.value.level === level);
  const computed = computedLevels(
    run,
    campaign,
    heights,
    (site, level) => stated(site, level)?.known ?? null,
  );

  /** A computed level against the one that is stated for the same: which of them counts is said. */
  const compare = (site: string, of: ComputedLevel, { known: { value }, result }: Level): void => {
    const row = rows.tide_levels.find(({ row_id }) => row_id === result.row_id)!;
    const off_m = value.elevation_m - of.elevation_m;
    const isApart = Math.abs(off_m) > 2 * inQuadrature(value.sigma_m ?? 0, of.sigma_m);
    complain(
      row,
      isApart ? 'tide-level-differs' : 'tide-level-stated',
      'elevation_m',
      `${of.level} at ${inMetres(value.elevation_m)} m, as entered; ${inMetres(of.elevation_m)} m ±${(2 * of.sigma_m).toFixed(2)} m (2σ) by the ${of.method === 'means' ? 'readings' : 'constants'} of ${of.row.gauge}`,
      isApart ? 'the two to agree within their errors' : `one elevation of ${of.level} at ${site}`,
      isApart
        ? 'Check the entered level, its datum and the zero of the gauge. Delete the entered one to use what is computed. The entered level is used until then.'
        : 'Delete the entered level to use what is computed. The entered one takes precedence.',
      isApart ? 'warning' : 'note',
    );
  };

  const levels = new Map<string, Level[]>();
  const labels = [rows.sites, rows.tide_levels, rows.tide_reductions].flatMap((of) =>
    of.map(({ site }) => site),
  );
  for (const site of new Set(labels)) {
    const all = [...(statedOf.get(site) ?? [])];
    for (const of of computed.of(site)) {
      const entered = stated(site, of.level);
      const { level, elevation_m, sigma_m, row, method, how, parts } = of;
      const computedIt = { gauge: row.gauge, computed_m: elevation_m, computed_sigma_m: sigma_m };
      if (entered !== undefined) {
        compare(site, of, entered);
        entered.result = { ...entered.result, ...computedIt };
        continue;
      }
      const value: SiteTideLevel = { level, elevation_m, sigma_m };
      all.push({
        known: run.part(
          traceId.tide(site, level),
          value,
          tellComputedLevel(site, row.gauge, how, value),
          parts,
        ),
        result: { ...resultOf(row.row_id, method, value), ...computedIt },
      });
    }
    levels.set(site, all);
  }
  return {
    of: (site) => (site === null ? [] : (levels.get(site) ?? []).map(({ known }) => known)),
    made: [...levels].flatMap(([site, all]) =>
      all.length === 0 ? [] : [{ site, levels: all.map(({ result }) => result).sort(byName) }],
    ),
    problems: [...computed.problems, ...problems],
  };
}

const resultOf = (row_id: string, basis: LevelResult['basis'], level: SiteTideLevel): LevelResult => ({
  level: level.level,
  row_id,
  basis,
  elevation_m: level.elevation_m,
  sigma_m: level.sigma_m,
  gauge: null,
  computed_m: null,
  computed_sigma_m: null,
});

const NAMES: readonly string[] = TIDE_LEVELS;
const byName = (a: LevelResult, b: LevelResult): number => NAMES.indexOf(a.level) - NAMES.indexOf(b.level);
