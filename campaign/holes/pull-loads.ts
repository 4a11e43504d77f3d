/**
 * What pulling the string puts on line, hook and tripod, against what is marked on them: the load as last read where
 * there is a reading, else the wide range of the estimate. Rated loads are checked by a competent person, never here.
 */
import {
  lineLoad,
  type PullEstimate,
  pullEstimate,
  type RatedLoad,
  type Reeving,
} from '@stillstand/science/rig';
import type { HoleState } from './state.ts';
import type { Basis } from './weighed-head.ts';

export interface PullLoads {
  estimate: PullEstimate | null;
  reeving: Reeving;
  /** On the line, as last read; with what it makes of hook and tripod. */
  read: { line_kn: number; hook_kn: number; head_kn: number } | null;
  /** The ratings that are exceeded, or may be, the gravest first. */
  against: {
    part: string;
    rated_kn: number;
    verdict: 'may exceed' | 'exceeds';
    by: 'reading' | 'estimate';
  }[];
  /** The load ratings read off the gear. */
  rated: readonly RatedLoad[];
  basis: Basis[];
}

export function pullLoads(now: HoleState): PullLoads {
  const { pulling, given } = now;
  const reeving: Reeving = {
    parts: pulling.parts,
    sheaves: pulling.sheaves ?? pulling.parts,
    bearing: pulling.bearing,
  };
  const rated = (
    [
      ['line', pulling.rated_line_kn, 'line'],
      ['hook', pulling.rated_hook_kn, 'hook'],
      ['tripod', pulling.rated_head_kn, 'head'],
    ] as const
  ).flatMap(([part, rated_kn, on]): RatedLoad[] => (rated_kn === null ? [] : [{ part, rated_kn, on }]));
  const length = now.fold.collar_to_shoe_m;
  // while it comes out its height is not read: no more of it is in the ground than it is long
  const inGround =
    length === null ? null : (now.last?.penetration_now_m ?? Math.min(length, now.fold.deepest_m ?? 0));
  const estimate =
    now.pipe === null || length === null || inGround === null
      ? null
      : pullEstimate({
          pipe: now.pipe,
          collar_to_shoe_m: length,
          penetration_m: Math.max(0, Math.min(inGround, length)),
          plug_m: now.last?.plug_m ?? null,
          extra_kg: pulling.hanging_kg,
          reeving,
          rated,
        });
  const line_kn = lastRead(now);
  const read = line_kn === null ? null : { line_kn, ...upwards(line_kn, reeving) };
  const byReading = (read === null ? [] : rated).flatMap(({ part, rated_kn, on }) =>
    (on === 'line' ? read!.line_kn : on === 'hook' ? read!.hook_kn : read!.head_kn) > rated_kn
      ? [{ part, rated_kn, verdict: 'exceeds' as const, by: 'reading' as const }]
      : [],
  );
  const byEstimate = (read === null ? (estimate?.still.against ?? []) : []).flatMap(
    ({ part, rated_kn, verdict }) =>
      verdict === 'within' ? [] : [{ part, rated_kn, verdict, by: 'estimate' as const }],
  );
  return {
    estimate,
    reeving,
    read,
    against: [...byReading, ...byEstimate].sort((a, b) => rank(b.verdict) - rank(a.verdict)),
    rated,
    basis: [
      {
        says: reeving.parts === 1 ? '1 part of line' : `${reeving.parts} parts of line`,
        assumed: !given.has('line_parts'),
      },
      {
        says:
          rated.length === 0
            ? 'no load rating read'
            : `rated ${rated.map((r) => `${r.part} ${r.rated_kn}`).join(', ')} kN`,
        assumed: rated.length === 0,
      },
      ...(pulling.hanging_kg === 0 ? [] : [{ says: `${pulling.hanging_kg} kg hanging`, assumed: false }]),
    ],
  };
}

const rank = (verdict: 'may exceed' | 'exceeds'): number => (verdict === 'exceeds' ? 1 : 0);

/** From the line back to what hangs on the hook and stands on the tripod. */
function upwards(line_kn: number, reeving: Reeving): { hook_kn: number; head_kn: number } {
  const hook_kn = line_kn * reeving.parts * lineLoad(1, reeving).efficiency;
  return { hook_kn, head_kn: lineLoad(hook_kn, reeving).head_kn };
}

/** The load on the line as last read in this hole while it is pulled. */
function lastRead(now: HoleState): number | null {
  const last = now.campaign.rows.string_items.findLast(
    (j) => j.hole === now.row.hole && j.line_load_kn !== null,
  );
  return last?.line_load_kn ?? null;
}
