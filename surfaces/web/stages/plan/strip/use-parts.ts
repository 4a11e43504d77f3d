/** The seven parts of the plan as the campaign has them now, for one day and one hole. */
import {
  checksOf,
  dangersOf,
  degreesMinutes,
  inventoryOf,
  lossOf,
  ofPipe,
  type PackingLine,
  type PermitState,
  permitsNow,
  pipeAtHand,
  USUAL_STICK_UP_M,
} from '@stillstand/campaign/holes';
import { clockOf } from '@stillstand/campaign/tables';
import { useComputation } from '../../../compute/index.ts';
import { clockAt, type DayTide, wayIn } from '../../../days/index.ts';
import { asTyped } from '../../../holes/index.ts';
import { signed } from '../../../parts/index.ts';
import { draftsOf, type Store, useStore } from '../../../store/index.ts';
import type { FieldDay } from '../day/day.tsx';
import { voidDay } from '../day/day-date.ts';
import { isCutOff, isOfDay } from '../day/leave-by.ts';
import { offsetOf } from '../day/tide-of-day.tsx';
import { useDayTide, useSiteTide } from '../day/use-day-tide.ts';
import { packingGaps } from '../gear/use-packing.ts';
import { hasUnrecorded } from '../heights/level-kept.ts';
import type { Part } from './part.ts';
import { gear, hazards, heights, howDeep, tide, where, who } from './parts-of.ts';

/** Tables whose warnings are about heights. */
const HEIGHT_TABLES = ['levelling', 'level_loops', 'benchmarks'];

export function useParts({
  field: { day, days, today },
  hole,
  site,
  others,
  packing,
}: {
  field: Pick<FieldDay, 'day' | 'days' | 'today'>;
  hole: string | null;
  /** Where that hole is; null where no site is known. */
  site: string | null;
  /** Holes that go on, but for that one. */
  others: number;
  packing: readonly PackingLine[];
}): Part[] {
  const store = useStore();
  const { campaign, results, problems } = useComputation();
  const row = campaign?.rows.holes.find((it) => it.hole === hole) ?? null;
  const datum = results?.datum.label ?? '';
  const pipe = row?.pipe ?? null;
  const reach_m = reachOf(store, pipe, lossOf(campaign?.rows.pipes ?? [], pipe));
  const target_m = row?.target_depth_m ?? null;
  const cells = day?.cells ?? {};
  const date = cells['date']?.trim() ?? '';
  const leaveBy = cells['leave_by'] ?? '';
  const offset_min = day === null ? 0 : offsetOf(store, day, days);
  const way = wayIn(cells);
  const water = useDayTide(useSiteTide(site), date, offset_min, way);
  const void_day = day === null ? null : voidDay(date, today);
  const checks = date === '' ? [] : checksOf(asTyped(store), date, hole);
  const noes = checks.filter(({ given }) => given?.answer === 'no');
  // A no of today is no less one where an older day, or one without its date, is looked at.
  const dangers = dangersOf(void_day === null ? checks : checksOf(asTyped(store), today, hole));
  const permits = permitsNow(asTyped(store), date || today);
  const named = (wanted: PermitState['level']): string[] =>
    permits
      .filter(({ level }) => level === wanted)
      .map(({ permit, site }) => (site === null ? permit : `${permit} at ${site}`));
  return [
    where({
      hole,
      others,
      position:
        row === null || row.latitude_deg === null || row.longitude_deg === null
          ? null
          : degreesMinutes(row.latitude_deg, row.longitude_deg),
    }),
    howDeep({ hole, target_m, reach_m }),
    heights({
      hole,
      datum,
      reference: results?.holes.find((it) => it.hole === hole)?.reference_elevation_m ?? null,
      isDraft: hasUnrecorded(draftsOf(store.id), store.rows('levelling')),
      open_loops: [
        ...new Set(
          problems.flatMap((problem) =>
            problem.table !== null && HEIGHT_TABLES.includes(problem.table) && problem.severity !== 'note'
              ? [problem.label ?? 'level book']
              : [],
          ),
        ),
      ],
    }),
    tide({
      water: water === null ? null : highWaterWords(water, offset_min),
      hasAccess: way !== null,
      leave_by: clockOf(leaveBy),
      isOtherDay: !isOfDay(leaveBy, date),
      isCut: isCutOff(water, Date.parse(leaveBy)),
    }),
    gear({ needsPipe: row === null || row.method === 'string', target_m, reach_m, ...packingGaps(packing) }),
    who({
      crew: cells['crew'] ?? '',
      emergency_contact: cells['emergency_contact'] ?? '',
      contacts: cells['contacts'] ?? '',
    }),
    hazards({
      dangers: dangers.map(({ hazard }) => hazard),
      stops: named('stop'),
      warnings: [
        ...noes.filter(({ state }) => state === 'caution').map(({ hazard }) => hazard),
        ...named('warn'),
      ],
      open: day === null ? 1 : checks.filter(({ state }) => state === 'open').length,
      asked: checks.length,
      void_day,
    }),
  ];
}

/** Shoe below ground with the joints at hand that go into this kind of pipe, m; null where no joint is recorded. */
function reachOf(store: Store, pipe: string | null, makeup_loss_m: number): number | null {
  const items = inventoryOf(asTyped(store));
  return items.some(({ item }) => item === 'joint')
    ? pipeAtHand(ofPipe(items, pipe), makeup_loss_m, USUAL_STICK_UP_M).reach_m
    : null;
}

/** "high water 16:52, +0.88": the highest of the day. */
function highWaterWords({ waters }: DayTide, offset_min: number): string {
  const [highest] = waters.filter(({ kind }) => kind === 'high').sort((a, b) => b.height_m - a.height_m);
  return highest === undefined
    ? 'no high water this day'
    : `high water ${clockAt(highest.time_ms, offset_min)}, ${signed(highest.height_m, 2)}`;
}
