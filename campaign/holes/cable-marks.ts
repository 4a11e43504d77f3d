/**
 * What was said of the cable before a run: tape put on at the marks, zero checked with the tip at the collar, water
 * outside read. A mark counts as made when somebody said so; until then it is a place where tape is to be put.
 */
import type { Campaign } from '@stillstand/campaign/document';
import { parseLength } from '@stillstand/campaign/tables';
import { FOOT_M } from '@stillstand/science/base';
import { marksBetween } from '@stillstand/science/rig';

export interface MadeMark {
  /** "sediment", "+0.5 m", "full", "stop". */
  label: string;
  /** Tip of the sampler below the collar when it passes the collar, as it was put on. */
  tip_m: number;
}

interface Said {
  by: string | null;
  time: string | null;
  seq: number;
}

export interface CableSaid {
  /** Null: no marks were said to be made for this string and this sediment. */
  marks: (Said & { made: MadeMark[] }) | null;
  /** Why marks that were made do not count, where there are some: the string or the sediment has changed since. */
  stale: string | null;
  /** Null: the zero was not checked since the last run, or since the string changed. */
  zero: Said | null;
  /** Null: not read since the last drive. */
  outside: Said | null;
  /** What is missing, each as a caution: empty where a run may begin without one. */
  missing: string[];
}

/** What `cable_marks` has for it; blank where there is no such mark. */
export interface MarksRow {
  sediment_m: number | null;
  interval_m: number | null;
  full_m: number | null;
  stop_m: number | null;
}

/** Nearer than this no tape is put on. */
const LEAST_M = 0.01;

/** "+0.5 m", "+3 ft": of a tape between sediment and stop, so far below the sediment. */
export function betweenLabel(below_m: number, interval_m: number): string {
  const feet = interval_m / FOOT_M;
  const isInFeet = Math.abs(feet - Math.round(feet)) < 0.01 && Math.round(feet) > 0;
  return isInFeet ? `+${Math.round(below_m / FOOT_M)} ft` : `+${below_m.toFixed(1)} m`;
}

/** Every tape of such a row in the order in which they pass the collar. */
export function marksOf({ sediment_m, interval_m, full_m, stop_m }: MarksRow): MadeMark[] {
  const isSpaced = interval_m !== null && interval_m >= LEAST_M && sediment_m !== null && stop_m !== null;
  const between = isSpaced
    ? marksBetween(sediment_m, stop_m, interval_m).filter(({ is }) => is === 'between')
    : [];
  return [
    { label: 'sediment', tip_m: sediment_m },
    ...between.map(({ tip_m }) => ({ label: betweenLabel(tip_m - sediment_m!, interval_m!), tip_m })),
    { label: 'full', tip_m: full_m },
    { label: 'stop', tip_m: stop_m },
  ]
    .filter((mark): mark is MadeMark => mark.tip_m !== null)
    .sort((a, b) => a.tip_m - b.tip_m);
}

const PREFIX = 'cable marks: ';
const MARK = /^(sediment|full|stop|\+[\d.]+ (?:m|ft)) (.+)$/;

/** The marks in the note of a sounding, where version 1 kept them: "cable marks: sediment 1.02 m; stop 2.82 m". */
function marksIn(note: string | null): MadeMark[] {
  return (note ?? '')
    .replace(PREFIX, '')
    .split('; ')
    .flatMap((part): MadeMark[] => {
      const [, label, said] = MARK.exec(part.trim()) ?? [];
      const read = parseLength((said ?? '').replace('−', '-'));
      return label !== undefined && read.ok ? [{ label, tip_m: read.metres }] : [];
    });
}

/**
 * As it stands for the run in hand (`inHand`, its row_id), else for the next. `stop_m`: where the stop mark belongs now,
 * tip below the collar; null where the string's length is not known.
 */
export function cableSaid(
  { rows }: Pick<Campaign, 'rows'>,
  hole: string,
  stop_m: number | null,
  inHand: string | null,
): CableSaid {
  const soundings = rows.soundings.filter((r) => r.hole === hole);
  const lastSeq = (of: readonly { seq: number }[]): number =>
    of.reduce((last, r) => Math.max(last, r.seq), -Infinity);
  const string = lastSeq(rows.string_items.filter((r) => r.hole === hole));
  const run = lastSeq(rows.runs.filter((r) => r.hole === hole && r.row_id !== inHand));
  const drive = lastSeq(rows.drives.filter((r) => r.hole === hole));
  const sediment = lastSeq(soundings.filter((r) => r.to_sediment_m !== null && r.purpose !== 'zero_check'));
  const said = ({ by, time, seq }: Said): Said => ({ by, time, seq });

  const markings = [
    ...soundings.map((r) => ({ ...said(r), made: marksIn(r.note) })),
    ...rows.cable_marks.filter((r) => r.hole === hole).map((r) => ({ ...said(r), made: marksOf(r) })),
  ].sort((a, b) => a.seq - b.seq);
  const marking = markings.findLast(({ made }) => made.some((m) => m.label === 'stop'));
  const stale =
    marking === undefined ? null : staleBecause(marking.seq, marking.made, { string, sediment, run }, stop_m);
  const zero = soundings.findLast(
    (r) => (r.purpose === 'zero_check' || r.cable_at_collar_m !== null) && r.seq > Math.max(run, string),
  );
  const outside = soundings.findLast((r) => r.water_outside_m !== null && r.seq > drive);
  const isRead = soundings.some((r) => r.water_outside_m !== null);
  return {
    marks: marking === undefined || stale !== null ? null : marking,
    stale,
    zero: zero === undefined ? null : said(zero),
    outside: outside === undefined ? null : said(outside),
    missing: [
      ...(marking === undefined
        ? ['Cable marks not confirmed']
        : stale === null
          ? []
          : [`Cable marks not confirmed: ${stale}`]),
      ...(zero === undefined ? ['Zero of the cable not checked'] : []),
      ...(outside !== undefined
        ? []
        : [isRead ? 'Water outside not read since the last drive' : 'Water outside not read']),
    ],
  };
}

function staleBecause(
  seq: number,
  made: readonly MadeMark[],
  last: { string: number; sediment: number; run: number },
  stop_m: number | null,
): string | null {
  if (seq < last.string) return 'the string has changed since';
  if (seq < last.run) return 'a run was made since';
  if (seq < last.sediment) return 'the sediment was sounded since';
  const stop = made.find((m) => m.label === 'stop')!.tip_m;
  return stop_m !== null && stop > stop_m + 1e-6
    ? 'the stop mark is too deep for the string as it is now'
    : null;
}
