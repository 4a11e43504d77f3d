/** `stillstand cable`: where to put the tape on the sampler's cable, and what marks that were read say. */
import { type CableSaid, cableSaid } from '@stillstand/campaign/holes';
import { problem } from '@stillstand/campaign/problems';
import {
  type CableTape,
  cableTape,
  clearanceOf,
  type RigSettings,
  rigDefaults,
} from '@stillstand/science/rig';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { type CrewUnit, lengthWord, markInterval_m, sayLength, typedUnit, unitWord } from '../crew-length.ts';
import { AT_OPTION, holeWords, missingReading, noString, openRigHole, type RigHole } from '../open-hole.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';

export const cable: Command = {
  name: 'cable',
  summary: 'Show cable marks for the sampler, and what marks that were read mean.',
  usage: [
    'cable FOLDER HOLE [--at SEQ] [--json]',
    'cable --sediment 6.10m --shoe 9.14m [--joints 3] [--end 8.2m --start 6.1m --strokes 30] [--json]',
  ],
  options: {
    ...AT_OPTION,
    sediment: { type: 'string', value: 'LENGTH', about: 'collar to the sediment inside' },
    shoe: { type: 'string', value: 'LENGTH', about: 'collar to shoe' },
    joints: { type: 'string', value: 'NUMBER', about: 'joints in the string; 1 if not given' },
    margin: {
      type: 'string',
      value: 'LENGTH',
      about: 'least distance of the tip from the shoe; 0.30 m if not given',
    },
    every: { type: 'string', value: 'LENGTH', about: 'between marks; 1 m or 1 ft if not given' },
    capacity: { type: 'string', value: 'LENGTH', about: 'what the sampler holds; 1.2 m if not given' },
    zero: { type: 'string', value: 'LENGTH', about: 'what the tape reads with the tip at the collar' },
    start: { type: 'string', value: 'LENGTH', about: 'mark when the tip first touched' },
    end: { type: 'string', value: 'LENGTH', about: 'mark when the tip was lowest' },
    strokes: { type: 'string', value: 'NUMBER', about: 'strokes of the run' },
    unit: {
      type: 'string',
      value: 'm|ft',
      about: 'the crew’s unit, also of bare numbers; as in the hole’s readings or the options, else m',
    },
  },
  more: [
    'A mark is put on the cable where it passes the collar when the tip is at the depth given. The stop mark stands at',
    'the margin above the shoe: the set one or 2σ of the clearance, whichever is more. Marks are rounded down, the margin',
    'up. Clearance is clear, near stop (below twice the margin), stop or past shoe. Options given with a hole override',
    'its readings. Exit code 1 where the tip was inside the margin or a needed reading is missing.',
  ].join('\n'),
  run,
};

interface Given {
  sediment_m: number | null;
  shoe_m: number | null;
  joints: number;
  settings: RigSettings;
  capacity_m: number | null;
  zero_m: number;
}

async function run(words: Words): Promise<ExitCode> {
  const place = holeWords(words.positionals);
  const hole = place === null ? null : await openRigHole(...place, words.number('at', { min: 0 }));
  const unit = unitWord(words) ?? hole?.unit ?? typedUnit(words, ['sediment', 'shoe', 'end']) ?? 'm';
  const length = (option: string) => lengthWord(words, option, unit);
  const from = hole === null ? plain() : ofHole(hole);
  const settings = { ...from.settings, margin_m: length('margin') ?? from.settings.margin_m };
  const typedSediment = length('sediment');
  const sediment_m = typedSediment ?? from.sediment_m;
  const shoe_m = length('shoe') ?? from.shoe_m;
  const joints = words.number('joints', { min: 0, integer: true }) ?? from.joints;
  const interval_m = length('every') ?? markInterval_m(unit);
  if (!(interval_m > 0.01)) throw new WrongUse('--every: expected more than 0.01 m');
  if (hole === null && (sediment_m === null || shoe_m === null))
    throw new WrongUse('Expected a folder and a hole, or --sediment and --shoe');

  const problems = (hole?.problems ?? []).filter((p) => p.severity === 'error');
  const missing = (what: string, fix: string) =>
    problems.push(missingReading('soundings', hole?.name ?? null, what, fix));
  if (shoe_m === null) problems.push(noString(hole!));
  else if (sediment_m === null) missing('collar to sediment', 'Take a sounding.');
  const since = hole === null || shoe_m === null || typedSediment !== null ? [] : sinceSounded(hole);
  if (since.length > 0 && sediment_m !== null) {
    problems.push(
      problem({
        severity: 'warning',
        code: 'not-sounded-since',
        table: 'soundings',
        label: hole!.name,
        found: since.join('; '),
        expected: 'a sounding after it',
        fix: 'Take a sounding before the sampler goes down. Sediment level is estimated until then.',
      }),
    );
  }
  const zeroRead = hole === null ? 0 : zeroCheck(hole);
  if (Math.abs(zeroRead) > 2 * settings.mark_sigma_m && words.text('zero') === undefined) {
    problems.push(
      problem({
        severity: 'warning',
        code: 'zero-check-off',
        table: 'soundings',
        label: hole!.name,
        found: `tape read ${sayLength(zeroRead, unit)} at the collar`,
        expected: '0, tip and mark level with the collar',
        fix: 'Move the tape and check it again. The marks below are for a tape that reads 0; with --zero they are for one that does not.',
      }),
    );
  }
  const tape =
    sediment_m === null || shoe_m === null
      ? null
      : cableTape({
          to_sediment_m: sediment_m,
          collar_to_shoe_m: shoe_m,
          joints,
          interval_m,
          capacity_m: length('capacity') ?? from.capacity_m,
          zero_m: length('zero') ?? from.zero_m,
          settings,
        });
  const zero_m = length('zero') ?? from.zero_m;
  const start = length('start');
  const end = length('end');
  const observed =
    end === null || shoe_m === null
      ? null
      : marksRead(start, end, zero_m, words.number('strokes', { min: 0 }) ?? null, shoe_m, joints, settings);
  if (observed !== null && (observed.verdict === 'stop' || observed.verdict === 'past shoe')) {
    problems.push(
      problem({
        severity: 'danger',
        code: observed.verdict === 'stop' ? 'sampler-inside-margin' : 'sampler-past-shoe',
        table: 'runs',
        label: hole?.name ?? null,
        column: 'end_mark',
        found:
          observed.clearance_m < 0
            ? `tip ${sayLength(-observed.clearance_m, unit, 'at least')} past the shoe`
            : `tip ${sayLength(observed.clearance_m, unit, 'at most')} above the shoe`,
        expected: `at least ${sayLength(observed.margin_m, unit, 'at least')} above it`,
        fix:
          observed.verdict === 'stop'
            ? 'Stop: no deeper before the string is driven on. Enter it as it happened.'
            : 'Lift it now. Enter it as it happened.',
      }),
    );
  }
  const at = words.number('at', { min: 0 }) ?? Number.POSITIVE_INFINITY;
  const said = hole === null ? null : saidOf(hole, tape, at);
  if (hole !== null && said !== null && said.missing.length > 0) {
    problems.push(
      problem({
        severity: 'warning',
        code: 'run-unchecked',
        table: 'soundings',
        label: hole.name,
        found: said.missing.join('; '),
        expected: 'marks, zero and outside water confirmed before a run',
        fix: 'Put the tape on, check the zero at the collar and read the water outside; enter each.',
      }),
    );
  }
  if (words.flag('json')) sayJson({ hole: hole?.name ?? null, unit, tape, observed, said });
  else {
    if (tape !== null) sayTape(tape, unit);
    if (observed !== null) sayObserved(observed, unit);
  }
  return sayProblems(problems);
}

/** What has changed the sediment since it was last sounded, by name. */
function sinceSounded(hole: RigHole): string[] {
  const names = new Map(hole.entries.map((e) => [e.reading, e.name]));
  const since = hole.run === null ? hole.sediment.since : [...hole.sediment.since, hole.run];
  return since.map((reading) => `${names.get(reading)} (seq ${reading.seq})`);
}

/** What the tape last read at the collar with the tip level with it; 0 where nobody looked. */
function zeroCheck(hole: RigHole): number {
  const check = hole.readings.findLast(
    (r) => r.kind === 'sounding' && (r.purpose === 'zero_check' || r.cable_at_collar_m !== null),
  );
  return check?.kind === 'sounding' ? (check.cable_at_collar_m ?? 0) : 0;
}

/** What was said of the cable by then. */
function saidOf(hole: RigHole, tape: CableTape | null, at: number): CableSaid | null {
  const stop = tape?.marks.find((m) => m.is === 'stop')?.tip_m ?? null;
  if (stop === null) return null;
  const until = <Row extends { seq: number }>(rows: readonly Row[]): Row[] => rows.filter((r) => r.seq <= at);
  const { rows } = hole.campaign;
  const then = {
    ...rows,
    soundings: until(rows.soundings),
    string_items: until(rows.string_items),
    cable_marks: until(rows.cable_marks),
    drives: until(rows.drives),
    runs: until(rows.runs),
  };
  return cableSaid({ rows: then }, hole.name, stop, hole.run?.row_id ?? null);
}

const plain = (): Given => ({
  sediment_m: null,
  shoe_m: null,
  joints: 1,
  settings: rigDefaults,
  capacity_m: null,
  zero_m: 0,
});

function ofHole(hole: RigHole): Given {
  const { collar_to_shoe_m: shoe_m = null, plug_m = null } = hole.last ?? {};
  return {
    sediment_m: shoe_m === null || plug_m === null ? null : shoe_m - plug_m,
    shoe_m: hole.fold.joints_in === 0 ? null : shoe_m,
    joints: hole.fold.joints_in,
    settings: hole.settings,
    capacity_m: hole.sampler?.capacity_m ?? null,
    // a tape found off has been moved since, or should be: only what is typed now is taken off
    zero_m: 0,
  };
}

interface Observed {
  tip_m: number;
  advance_m: number | null;
  /** Of the sampled interval, below the collar. */
  from_m: number | null;
  to_m: number;
  strokes_per_m: number | null;
  clearance_m: number;
  clearance_sigma_m: number;
  margin_m: number;
  verdict: string;
}

/** What the marks at the collar say, the tape's own error taken off. */
function marksRead(
  start: number | null,
  end: number,
  zero_m: number,
  strokes: number | null,
  shoe_m: number,
  joints: number,
  settings: RigSettings,
): Observed {
  if (start !== null && start > end)
    throw new WrongUse('--end: found a mark above --start, expected one at or below it');
  const tip_m = end - zero_m;
  const advance_m = start === null ? null : end - start;
  const { clearance_m, sigma_m, margin_m, verdict } = clearanceOf(tip_m, shoe_m, joints, settings);
  return {
    tip_m,
    advance_m,
    from_m: start === null ? null : start - zero_m,
    to_m: tip_m,
    strokes_per_m: strokes === null || advance_m === null || advance_m === 0 ? null : strokes / advance_m,
    clearance_m,
    clearance_sigma_m: sigma_m,
    margin_m,
    verdict,
  };
}

function sayTape(tape: CableTape, unit: CrewUnit): void {
  const say = (m: number) => sayLength(m, unit);
  if (tape.refused) {
    print(
      'No run possible: the sediment is within the margin of the shoe, or below it. Drive the string on, then repeat the sounding.',
    );
  } else {
    sayTable([
      ['mark', 'tip below collar', 'taken', 'to the shoe'],
      ...tape.marks.map((m) => [
        { zero: 'zero', sediment: 'sediment', between: '·', full: 'sampler full', stop: 'STOP' }[m.is],
        sayLength(m.reads_m, unit, 'at most'),
        say(m.taken_m),
        sayLength(m.clearance_m, unit, 'at most'),
      ]),
    ]);
    print(
      `At most ${sayLength(tape.most_m, unit, 'at most')} in this run. Margin ${sayLength(tape.margin_m, unit, 'at least')}; clearance ± ${sayLength(2 * tape.clearance_sigma_m, unit, 'at least')} (2σ).${tape.capacity_assumed ? ` Sampler capacity assumed ${say(tape.capacity_m)}: common practice.` : ''}`,
    );
  }
  if (tape.zero_off) {
    print('The tape is off at the collar. Move it; until then read the marks as given here.');
  }
  print(`Caution. ${tape.caution}`);
}

function sayObserved(o: Observed, unit: CrewUnit): void {
  const say = (m: number) => sayLength(m, unit);
  const parts = [
    `Tip ${sayLength(o.tip_m, unit, 'at least')} below the collar`,
    o.advance_m === null ? null : `advance ${say(o.advance_m)}`,
    o.from_m === null ? null : `sampled ${say(o.from_m)} to ${say(o.to_m)}`,
    o.strokes_per_m === null ? null : `${o.strokes_per_m.toFixed(0)} strokes per metre`,
    `clearance ${sayLength(o.clearance_m, unit, 'at most')} ± ${sayLength(2 * o.clearance_sigma_m, unit, 'at least')} (2σ): ${o.verdict}`,
  ];
  print(`${parts.filter((p) => p !== null).join(', ')}.`);
}
