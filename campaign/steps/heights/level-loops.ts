/** Every loop of the level book, held at the benchmarks it touches. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { type LevelLoop, levelDefaults, reduceLoop } from '@stillstand/science/survey';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellLevelled, tellLoop } from '../words/heights.ts';
import { benchmarkSigma, type Elevation } from './elevation.ts';

const levelLoop = step(
  'levelling loop',
  ({
    sights,
    touched,
    allowed_mm_sqrt_km,
  }: {
    sights: readonly Row<'levelling'>[];
    touched: readonly Elevation[];
    allowed_mm_sqrt_km: number | null;
  }) =>
    reduceLoop(
      sights,
      touched.map((elevation) => ({
        point: elevation.benchmarks[0]!.benchmark,
        elevation_m: elevation.value_m,
        sigma_m: benchmarkSigma(elevation),
      })),
      allowed_mm_sqrt_km === null ? levelDefaults : { ...levelDefaults, allowed_mm_sqrt_km },
    ),
);

interface Levelled {
  /** Points that are no benchmark, by their name: of two loops the first counts. */
  points: ReadonlyMap<string, Known<Elevation>>;
  /** The loops themselves, by their label; none of a loop with lines that cannot be used. */
  loops: ReadonlyMap<string, LevelLoop>;
  problems: Problem[];
}

export function levelLoops(
  run: Runner,
  campaign: Campaign,
  benchmarks: ReadonlyMap<string, Known<Elevation>>,
): Levelled {
  const points = new Map<string, Known<Elevation>>();
  const loops = new Map<string, LevelLoop>();
  const problems: Problem[] = [];
  for (const [loop, sights] of Map.groupBy(campaign.rows.levelling, (row) => row.loop)) {
    const unread = campaign.skipped_rows.filter(
      (row) => row.table === 'levelling' && (row.loop ?? loop) === loop,
    );
    if (unread.length > 0) {
      problems.push(
        problem({
          severity: 'error',
          code: 'level-book-incomplete',
          table: 'levelling',
          row_id: unread[0]!.row_id,
          line: unread[0]!.line,
          label: `loop ${loop}`,
          found: `${unread.length} of its lines cannot be used`,
          expected: 'every line of the loop',
          fix: 'Correct the line, or choose one of its amendments. A loop with a gap gives wrong heights, so it gives none.',
        }),
      );
      continue;
    }
    const touched = [...new Set(sights.map((s) => s.point))].flatMap((p) => benchmarks.get(p) ?? []);
    const rows = sights.map((s) => run.row('levelling', s, `sight to ${s.point}`));
    const book = run.set(traceId.levelBook(loop), `levelling book ${loop}`, rows);
    const allowed = campaign.rows.level_loops.find((row) => row.loop === loop)?.allowed_mm_sqrt_km ?? null;
    const reduced = run.do(
      levelLoop,
      traceId.loop(loop),
      { sights: rows, touched, allowed_mm_sqrt_km: allowed === null ? null : run.plain(allowed) },
      (v) => tellLoop(loop, v),
      () => [book, ...touched],
    );
    loops.set(loop, reduced.value);
    for (const finding of reduced.value.findings) {
      problems.push(problem({ ...finding, table: 'levelling', label: `loop ${loop}` }));
    }
    for (const point of reduced.value.points) {
      if (benchmarks.has(point.point) || points.has(point.point)) continue;
      const elevation: Elevation = {
        value_m: point.elevation_m,
        levelling_sigma_m: point.sigma_m,
        group: null,
        benchmarks: point.shared.flatMap(({ point: benchmark, weight }) =>
          benchmarks
            .get(benchmark)!
            .value.benchmarks.map((part) => ({ ...part, sigma_m: Math.abs(weight) * part.sigma_m })),
        ),
        shifts: touched[0]?.value.shifts ?? [],
      };
      points.set(
        point.point,
        run.part(traceId.levelled(point.point), elevation, tellLevelled(point.point, loop, elevation), [
          reduced,
        ]),
      );
    }
  }
  return { points, loops, problems };
}
