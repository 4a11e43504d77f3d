import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import type { DriveReading, JointReading, RigReading, RunReading, SoundingReading } from '../reading.ts';
import { placePiece } from '../sampler/run.ts';
import { rigDefaults } from '../settings.ts';
import { reconcile } from '../string/account.ts';
import { type ReducedHole, reduceHole } from './hole.ts';

const TENTH_MM = 1e-4;
const near = (a: number | null, b: number, tolerance = TENTH_MM) =>
  assert.ok(a !== null && Math.abs(a - b) < tolerance, `${a} is not ${b}`);

/** Numbers the readings as they are written. */
function book() {
  const readings: RigReading[] = [];
  const next = () => ({ row_id: `r${readings.length + 1}`, seq: readings.length + 1 });
  const self = {
    readings,
    joint: (
      action: JointReading['action'],
      label: string | null,
      length_m: number | null,
      more: Partial<JointReading> = {},
    ) => {
      readings.push({
        kind: 'joint',
        ...next(),
        action,
        item: 'joint',
        label,
        length_m,
        tight: true,
        ...more,
      });
      return self;
    },
    drive: (
      stick_up_start_m: number | null,
      stick_up_end_m: number | null,
      more: Partial<DriveReading> = {},
    ) => {
      readings.push({
        kind: 'drive',
        ...next(),
        stick_up_start_m,
        stick_up_end_m,
        duration_s: null,
        ended_by: null,
        frequency_hz: null,
        ...more,
      });
      return self;
    },
    sound: (to_sediment_m: number | null, more: Partial<SoundingReading> = {}) => {
      readings.push({
        kind: 'sounding',
        ...next(),
        purpose: null,
        to_sediment_m,
        cable_at_collar_m: null,
        to_water_inside_m: null,
        water_outside_m: null,
        collar_to_shoe_m: null,
        stick_up_m: null,
        sigma_m: null,
        ...more,
      });
      return self;
    },
    run: (
      run: string,
      start_mark_m: number | null,
      end_mark_m: number | null,
      recovered_m: number | null,
      more: Partial<RunReading> = {},
    ) => {
      readings.push({
        kind: 'run',
        ...next(),
        run,
        start_mark_m,
        end_mark_m,
        strokes: null,
        recovered_m,
        fall_in_m: null,
        loss_position: 'base',
        outcome: null,
        ...more,
      });
      return self;
    },
    water: (water: 'fresh' | 'sea') => {
      readings.push({
        kind: 'water',
        ...next(),
        volume_l: null,
        water,
        to_water_before_m: null,
        to_water_after_m: null,
      });
      return self;
    },
    ground: (ground_below_reference_m: number) => {
      readings.push({ kind: 'ground', ...next(), ground_below_reference_m });
      return self;
    },
    fold: (settings: Partial<typeof rigDefaults> = {}) =>
      reduceHole(readings, { ...rigDefaults, ...settings }),
  };
  return self;
}

const codes = (fold: ReducedHole) => fold.findings.map((f) => f.code);

test('two joints, a drive, a sounding, a run: every length by hand', () => {
  // 2 × 3.05 m less one thread of 0.04 m = 6.06; reference 0.20 m above ground
  const fold = book()
    .ground(0.2)
    .joint('add', 'J1', 3.05)
    .joint('add', 'J2', 3.05)
    .drive(5.86, 1.0)
    .sound(3.06)
    .run('R1', 3.06, 4.1, 1.0)
    .sound(4.06)
    .ground(0.35)
    .fold({ makeup_loss_m: 0.04 });
  const last = fold.states[fold.states.length - 1]!;
  near(last.collar_to_shoe_m, 6.06);
  near(last.penetration_m, 4.86);
  near(last.penetration_now_m, 4.71);
  near(last.plug_m, 2.0);
  near(last.removed_m, 1.0);
  near(last.entered_m, 3.0);
  near(last.recovery, 3 / 4.86);
  near(fold.drives[0]!.entered_m, 3.0);
  near(fold.drives[0]!.to_m, 4.86);
  const run = fold.runs[0]!;
  assert.equal(run.removed_from, 'soundings');
  near(run.advance_m, 1.04);
  near(run.sampler_recovery, 1);
  near(run.entered_top_m, 0);
  near(run.entered_bottom_m, 1);
  near(run.clearance_m, 1.96);
  assert.deepEqual(codes(fold), []);
  assert.equal(fold.soundings.length, 1);
});

test('adding a joint moves the collar up by its made-up length; a string that sank by itself is named and used', () => {
  const b = book().ground(0).joint('add', 'J1', 3).drive(2.5, 0.5).joint('add', 'J2', 3);
  near(b.fold({ makeup_loss_m: 0.05 }).states.at(-1)!.stick_up_m, 3.45);
  const fold = b.drive(3.3, 1).fold({ makeup_loss_m: 0.05 });
  assert.deepEqual(codes(fold), ['stick-up-jump']);
  near(fold.drives[1]!.from_m, 5.95 - 3.3);
  near(fold.deepest_m, 4.95);
});

test('a finding on the clearance is rounded to its safe side: 0.2996 m is no 0.30', () => {
  const found = book().ground(0).joint('add', 'J1', 6).drive(5.9, 1).sound(4).run('R1', 4, 5.7004, 1).fold();
  const named = found.findings.find((f) => f.code === 'sampler-inside-margin')!;
  assert.equal(named.found, 'tip 0.29 m above the shoe');
  assert.equal(named.expected, 'at least 0.30 m above the shoe');
  const past = book().ground(0).joint('add', 'J1', 6).drive(5.9, 1).sound(4).run('R1', 4, 6.001, 1).fold();
  assert.equal(past.findings.find((f) => f.code === 'sampler-past-shoe')!.found, 'tip 0.01 m past the shoe');
});

test('clearance: near stop, stop and past the shoe, each recorded and computed with', () => {
  const at = (tip: number) =>
    book()
      .ground(0)
      .joint('add', 'J1', 6)
      .drive(5.9, 1)
      .sound(2)
      .run('R1', 2, tip, null)
      .fold({ margin_m: 0.3 });
  assert.ok(!codes(at(5.3)).some((c) => c.startsWith('sampler')));
  assert.ok(codes(at(5.5)).includes('sampler-close'));
  assert.ok(codes(at(5.8)).includes('sampler-inside-margin'));
  const past = at(6.1);
  const danger = past.findings.find((f) => f.code === 'sampler-past-shoe')!;
  assert.equal(danger.severity, 'danger');
  near(past.runs[0]!.clearance_m, -0.1);
});

test('inflow is not entered: sediment that rises by itself, during a run, or beyond the drive', () => {
  const b = book().ground(0).joint('add', 'J1', 6).drive(5.9, 1).sound(3);
  const rising = b.sound(2.6).fold();
  assert.deepEqual(codes(rising), ['sediment-rising']);
  near(rising.states.at(-1)!.entered_m, 3);
  near(rising.states.at(-1)!.inflow_m, 0.4);
  near(rising.states.at(-1)!.plug_m, 3.4);

  const during = book()
    .ground(0)
    .joint('add', 'J1', 6)
    .drive(5.9, 1)
    .sound(3)
    .run('R1', 3, 4, 1)
    .sound(2.9)
    .fold();
  assert.deepEqual(codes(during), ['inflow-during-run']);
  near(during.runs[0]!.removed_m, 1);
  near(during.states.at(-1)!.inflow_m, 1.1);
  near(during.states.at(-1)!.entered_m, 3);

  const beyond = book().ground(0).joint('add', 'J1', 6).drive(5.9, 5).sound(4.5).fold();
  assert.deepEqual(codes(beyond), ['recovery-over-one']);
  near(beyond.states.at(-1)!.entered_m, 1);
  near(beyond.states.at(-1)!.inflow_m, 0.5);

  // 1.233 m in 1.17 m is 1.0538: written 1.05 it would not be over 1.05
  const barely = book().ground(0).joint('add', 'J1', 6).drive(5.9, 4.83).sound(4.767).fold();
  assert.match(barely.findings[0]!.found, /recovery 1\.054/);
});

test('a piece within inflow is told so, and what lies below it is placed as if it were not there', () => {
  // 3 m entered, 0.4 m inflow below it, then 1 m more entered; three runs take it all
  const fold = book()
    .ground(0)
    .joint('add', 'J1', 10)
    .drive(9.9, 6)
    .sound(7)
    .sound(6.6)
    .drive(6, 5)
    .sound(5.6)
    .run('R1', 5.6, 8.6, 3)
    .sound(8.6)
    .run('R2', 8.6, 9.6, 1)
    .sound(9.6)
    .fold();
  const run = fold.runs[1]!;
  near(run.inflow_m, 0.4);
  near(run.entered_top_m, 3);
  near(run.entered_bottom_m, 3.6);
  const piece = placePiece(run, fold.inflows, 0.1, 0.6)!;
  near(piece.inflow_m, 0.3);
  near(piece.top.low_m, 3);
  near(piece.bottom.low_m, 3.2);
});

test('a plug that settles shrinks evenly and moves the pins inside it', () => {
  const fold = book()
    .ground(0)
    .joint('add', 'J1', 6)
    .drive(5.9, 4)
    .sound(4)
    .drive(4, 1)
    .sound(3)
    .sound(3.3)
    .fold();
  assert.deepEqual(codes(fold), ['plug-settled']);
  near(fold.states.at(-1)!.entered_m, 2.7);
  near(fold.soundings[0]!.entered_m, 2 * 0.9);
  near(fold.soundings[1]!.entered_m, 2.7);
});

test('where loss is: top, base, spread, unknown', () => {
  const run = (loss_position: RunReading['loss_position']) => {
    const f = book()
      .ground(0)
      .joint('add', 'J1', 6)
      .drive(5.9, 1)
      .sound(3)
      .run('R1', 3, 4, 0.9, { loss_position, fall_in_m: 0.1 })
      .sound(4)
      .fold();
    return placePiece(f.runs[0]!, f.inflows, 0.3, 0.5)!;
  };
  near(run('base').top.low_m, 0.2);
  near(run('top').top.low_m, 0.4);
  near(run('spread').top.low_m, 0.25);
  const unknown = run('unknown');
  near(unknown.top.low_m, 0.2);
  near(unknown.top.high_m, 0.4);
  near(unknown.bottom.low_m, 0.4);
  near(unknown.bottom.high_m, 0.6);
  const fallIn = book()
    .ground(0)
    .joint('add', 'J1', 6)
    .drive(5.9, 1)
    .sound(3)
    .run('R1', 3, 4, 0.9, { fall_in_m: 0.1 })
    .sound(4)
    .fold();
  assert.equal(placePiece(fallIn.runs[0]!, fallIn.inflows, 0, 0.08), null);
  near(placePiece(fallIn.runs[0]!, fallIn.inflows, 0.05, 0.2)!.fall_in_m, 0.05);
});

test('a run without soundings stands on its marks with a larger sigma, and is named', () => {
  const fold = book()
    .ground(0)
    .joint('add', 'J1', 9)
    .drive(8.9, 4)
    .sound(5)
    .run('R1', 5, 6, 1)
    .drive(4, 3)
    .sound(5.1)
    .fold();
  assert.deepEqual(codes(fold), ['run-without-soundings']);
  assert.equal(fold.runs[0]!.removed_from, 'advance');
  near(fold.runs[0]!.removed_sigma_m, rigDefaults.cable_mark_sigma_m);
  near(fold.states.at(-1)!.entered_m, 4.9);
  const [first, second] = fold.soundings;
  assert.ok(second!.sigma_m > first!.sigma_m * 4);
});

test('the last run of a hole that goes on may still be sounded; another run or the end of the hole takes the chance', () => {
  const found = (fold: ReducedHole) => fold.findings.map((f) => [f.code, f.seq, f.found]);
  const sounded = () => book().ground(0).joint('add', 'J1', 9).drive(8.9, 4).sound(5);
  assert.deepEqual(found(sounded().run('R1', 5, 6, 1).fold()), []);
  const again = sounded().run('R1', 5, 6, 1).run('R2', 6, 7, 1).fold();
  assert.deepEqual(found(again), [
    ['run-without-soundings', 5, 'run R1 with no sounding between it and run number 6'],
  ]);
  const ended = sounded()
    .run('R1', 5, 6, 1)
    .fold({ ...rigDefaults, ended: true });
  assert.deepEqual(found(ended).slice(0, 1), [
    ['run-without-soundings', 5, 'run R1 with no sounding after it'],
  ]);
});

test('what is impossible is named, left out, and stops nothing', () => {
  const fold = book().ground(0).joint('add', 'J1', null).drive(2, 1).sound(1).fold();
  assert.deepEqual(codes(fold), ['joint-length-missing', 'collar-to-shoe-unknown']);
  assert.deepEqual(codes(book().drive(2, 1).fold()), ['drive-without-string', 'ground-assumed']);
  const twice = book().ground(0).joint('add', 'J1', 3).joint('add', 'J1', 3).fold();
  assert.deepEqual(codes(twice), ['joint-twice']);
  near(twice.collar_to_shoe_m, 3);
  const plug = book().ground(0).joint('add', 'J1', 3).drive(2.9, 1).sound(-0.2).sound(3.5).sound(1.5).fold();
  assert.deepEqual(codes(plug), ['plug-longer-than-string', 'sediment-below-shoe']);
  near(plug.entered_m, 1.5);
  const falling = book()
    .ground(0)
    .joint('add', 'J1', 6)
    .drive(5.9, 3)
    .sound(3.5)
    .drive(3, 2)
    .sound(3.8)
    .fold();
  assert.ok(codes(falling).includes('entered-falling'));
  near(falling.states.at(-1)!.entered_m, 2.2);
  assert.ok(
    codes(
      book()
        .ground(0)
        .joint('add', 'J1', 6, { tight: null })
        .joint('add', 'J2', 3, { tight: null })
        .drive(8, 7)
        .fold(),
    ).includes('joint-not-tight'),
  );
  assert.ok(
    codes(
      book().ground(0).joint('add', 'J1', 6).drive(5.9, 4).sound(4, { collar_to_shoe_m: 6.05 }).fold(),
    ).includes('collar-to-shoe-disagrees'),
  );
  assert.ok(
    codes(
      book()
        .ground(0)
        .joint('add', 'J1', 6)
        .drive(5.9, 4)
        .sound(4, { to_water_inside_m: 4.3, water_outside_m: 0.1 })
        .fold(),
    ).includes('water-inside-low'),
  );
  assert.ok(codes(book().ground(0).joint('add', 'J1', Number.NaN).fold()).includes('not-a-number'));
});

test('every item in and out: a lost string takes all below along; the rest is pulled; what is not told is missing', () => {
  const b = book()
    .ground(0)
    .joint('add', 'S', 0.2, { item: 'shoe' })
    .joint('add', 'J1', 3)
    .joint('add', 'J2', 3)
    .joint('add', 'J3', 3)
    .drive(9, 1)
    .joint('pull', 'J3', null)
    .joint('lost', 'J1', null)
    .joint('lost', 'S', null, { item: 'shoe' });
  const fold = b.drive(2, 1).fold({ ended: true });
  assert.deepEqual(
    fold.account.map((i) => [i.label, i.fate, i.in_ground_m]),
    [
      ['S', 'lost', 0.2],
      ['J1', 'lost', 3],
      ['J2', 'missing', 3],
      ['J3', 'pulled', 0],
    ],
  );
  assert.ok(codes(fold).includes('string-lost'));
  assert.ok(codes(fold).includes('pipe-unaccounted'));
  const gone = book().ground(0).joint('add', 'J1', 3).joint('lost', null, null).drive(2, 1).fold();
  assert.ok(codes(gone).includes('drive-after-loss'));
});

test('a drive head put on before the last was said to be off: both are in the account, and each comes off by its label', () => {
  const head = (action: JointReading['action'], label: string | null) =>
    [action, label, null, { item: 'drive_head' }] as const;
  const fates = (told: ReturnType<typeof book>, ended: boolean) =>
    reduceHole(told.readings, { ...rigDefaults, ended }).account.map((i) => `${i.label} ${i.fate}`);
  const both = book()
    .joint(...head('add', 'D1'))
    .joint(...head('add', 'D2'));
  assert.deepEqual(fates(both, false), ['D1 in the string', 'D2 in the string']);
  assert.deepEqual(fates(both, true), ['D1 missing', 'D2 missing']);
  both.joint(...head('remove', 'd1'));
  assert.deepEqual(fates(both, true), ['D1 removed', 'D2 missing']);
  // without its label it is the one on the collar
  both.joint(...head('pull', null));
  assert.deepEqual(fates(both, true), ['D1 removed', 'D2 pulled']);
  // the same one twice is one
  const twice = book()
    .joint(...head('add', 'D1'))
    .joint(...head('add', 'D1'));
  assert.deepEqual(fates(twice, true), ['D1 missing']);
  assert.deepEqual(
    reduceHole(twice.readings)
      .findings.filter((f) => f.severity === 'error')
      .map((f) => f.code),
    ['joint-twice'],
  );
});

test('what did not come back lies where the shoe last was known to be, from the shoe up, threads overlapping', () => {
  const fold = book()
    .ground(0.2)
    .joint('add', 'S', 0.2, { item: 'shoe' })
    .joint('add', 'J1', 3)
    .joint('add', 'J2', 3)
    .drive(5.8, 1.02)
    .joint('lost', 'J1', null)
    .fold({ makeup_loss_m: 0.05, ended: true });
  // 6.20 − 2 × 0.05 − 1.02 − 0.20 = 4.88
  assert.deepEqual(
    fold.account.map((i) => [i.label, i.fate, ...[i.lies_from_m!, i.lies_to_m!].map((x) => x.toFixed(2))]),
    [
      ['S', 'lost', '4.68', '4.88'],
      ['J1', 'lost', '1.73', '4.73'],
      ['J2', 'missing', '1.88', '4.88'],
    ],
  );
  const told = reconcile(fold.account);
  near(told.in_ground_m, 6.2);
  // J1 is made up on the shoe: 0.20 + 3.00 − 0.05; J2 parted from it
  near(told.in_ground_made_up_m, 6.15);
  assert.match(told.says[1]!, /joint J1 lost, 3\.00 m, no deeper than 1\.73 m to 4\.73 m below the ground/);
});

test('a night: the string settles and the plug shrinks, both told as one spell and used', () => {
  const fold = book()
    .ground(0)
    .joint('add', 'J1', 6)
    .drive(5.9, 4)
    .sound(4.5)
    .sound(4.6, { purpose: 'resume', stick_up_m: 3.975 })
    .fold();
  assert.deepEqual(codes(fold), ['plug-settled']);
  assert.equal(fold.stands.length, 1);
  near(fold.stands[0]!.rise_m, -0.025);
  near(fold.stands[0]!.plug_change_m, -0.1);
  near(fold.states.at(-1)!.shoe_below_reference_m, 6 - 3.975);
});

test('pressure on the plug: fresh water inside a string in the sea', () => {
  const at = (water: 'fresh' | 'sea') =>
    book()
      .ground(0)
      .joint('add', 'J1', 12)
      .drive(11.5, 1)
      .water(water)
      .sound(9, { to_water_inside_m: 0.9, water_outside_m: 0 })
      .fold();
  near(at('sea').states.at(-1)!.pressure_head_m, 0.1);
  assert.deepEqual(codes(at('sea')), []);
  // 8.1 m of fresh water weigh as 7.90 m of sea water; outside stand 8.0 m
  near(at('fresh').states.at(-1)!.pressure_head_m, 8.1 / 1.025 - 8);
  assert.deepEqual(codes(at('fresh')), ['water-inside-light']);
});

test('two readings of one seq: both rows are named, with how to fix it', () => {
  const { readings } = book().joint('add', 'A1', 3).drive(3, 1).sound(1.4);
  const twins = readings.map((r) => (r.kind === 'sounding' ? { ...r, seq: 2 } : r));
  const fold = reduceHole(twins);
  const [finding] = fold.findings.filter((f) => f.code === 'seq-twice');
  assert.equal(finding?.row_id, 'r3');
  assert.match(finding.found, /^number 2 both here and in the drive before it$/);
  assert.match(finding.fix, /move one of them before or after the other/);
});

test('the factor of safety of a reversed head is that of the sediment the crew states', () => {
  const { readings } = book()
    .joint('add', 'A1', 3)
    .drive(3, 1)
    .sound(1, { to_water_inside_m: 0.8, water_outside_m: -0.4 });
  const says = (settings = rigDefaults) =>
    reduceHole(readings, settings).findings.find((f) => f.code === 'water-inside-low')?.found ?? '';
  // outside −0.4 + stick-up 1 = 0.6 below the collar; inside 0.8: 0.2 m over 2 m of plug; organic 0.1 ÷ 0.1
  assert.match(says(), /factor of safety 1\.0 if the plug is organic/);
  assert.match(says({ ...rigDefaults, plug_kind: 'sand' }), /factor of safety 10\.0 if the plug is sand/);
});

test('pace: below half the median of the drives before is slowing, below a tenth refusal', () => {
  const b = book().ground(0).joint('add', 'J1', 12);
  let stick = 11.9;
  for (const advance of [1, 1.1, 0.9, 0.4, 0.05]) {
    b.drive(stick, stick - advance, { duration_s: 60 });
    stick -= advance;
  }
  assert.deepEqual(
    b.fold().drives.map((d) => d.pace),
    [null, 'steady', 'steady', 'slowing', 'refusal'],
  );
});

/** A legal hole without reading errors: what truly entered and was removed is known. */
const legal = fc.record({
  makeup: fc.integer({ min: 0, max: 60 }),
  ground: fc.integer({ min: -50, max: 200 }),
  steps: fc.array(
    fc.record({
      joint: fc.integer({ min: 1000, max: 6000 }),
      advance: fc.integer({ min: 1, max: 100 }),
      recovery: fc.integer({ min: 0, max: 100 }),
      runs: fc.array(fc.integer({ min: 1, max: 100 }), { maxLength: 3 }),
    }),
    { minLength: 1, maxLength: 12 },
  ),
});

test('random legal holes: totals reconcile and nothing is named (seed 4211)', () => {
  fc.assert(
    fc.property(legal, ({ makeup, ground, steps }) => {
      const m = (mm: number) => mm / 1000;
      const b = book().ground(m(ground));
      let collar = 0;
      let stick = 0;
      let plug = 0;
      let removed = 0;
      let entered = 0;
      steps.forEach((step, i) => {
        b.joint('add', `J${i}`, m(step.joint));
        const made = m(step.joint) - (i > 0 ? m(makeup) : 0);
        collar += made;
        // the first joint stands on the ground
        stick = i === 0 ? made - m(ground) : stick + made;
        const advance = (made * step.advance) / 100;
        b.drive(stick, stick - advance);
        stick -= advance;
        const gain = (advance * step.recovery) / 100;
        plug += gain;
        entered += gain;
        b.sound(collar - plug);
        step.runs.forEach((share, k) => {
          // a legal run has sediment above twice the margin
          if (plug < 0.7) return;
          const take = (Math.max(0, plug - 0.7) * share) / 100;
          b.run(`R${i}.${k}`, collar - plug, collar - plug + take, take);
          plug -= take;
          removed += take;
          b.sound(collar - plug);
        });
      });
      const fold = b.fold({ makeup_loss_m: m(makeup) });
      const last = fold.states.at(-1)!;
      assert.deepEqual(codes(fold), []);
      near(last.collar_to_shoe_m, collar, 1e-9);
      near(last.plug_m, plug, 1e-9);
      near(last.removed_m, removed, 1e-9);
      near(last.entered_m, entered, 1e-9);
      near(last.penetration_m, collar - stick - m(ground), 1e-9);
      // the runs lie end to end from the ground down
      let top = 0;
      for (const run of fold.runs) {
        near(run.entered_top_m, top, 1e-9);
        top = run.entered_bottom_m;
      }
      near(removed, top, 1e-9);
      near(
        fold.drives.reduce((s, d) => s + d.entered_m!, 0),
        entered,
        1e-9,
      );
      assert.deepEqual(fold.stands, []);
      // pulled joint by joint, every metre that went in came back
      for (let i = steps.length - 1; i >= 0; i--) b.joint('pull', `J${i}`, null);
      const ended = b.fold({ makeup_loss_m: m(makeup), ended: true });
      assert.deepEqual(codes(ended), []);
      const back = reconcile(ended.account);
      assert.equal(back.items.pulled, steps.length);
      near(
        back.back_m,
        steps.reduce((s, x) => s + m(x.joint), 0),
        1e-9,
      );
      near(back.added_m, back.back_m, 1e-9);
      assert.deepEqual(back.says, []);
    }),
    { seed: 4211, numRuns: 200 },
  );
});

test('one wrong reading in a legal hole is named, whatever the hole (seed 4213)', () => {
  const wrongs = {
    'plug-longer-than-string': (b: ReturnType<typeof book>) => b.sound(-0.5),
    'sediment-below-shoe': (b: ReturnType<typeof book>, shoe: number) => b.sound(shoe + 0.5),
    'sampler-past-shoe': (b: ReturnType<typeof book>, shoe: number) => b.run('X', shoe - 1, shoe + 0.05, 0.2),
    'sampler-inside-margin': (b: ReturnType<typeof book>, shoe: number) =>
      b.run('X', shoe - 1, shoe - 0.2, 0.2),
    'marks-reversed': (b: ReturnType<typeof book>, shoe: number) => b.run('X', shoe - 0.9, shoe - 1.9, 0.2),
    'joint-twice': (b: ReturnType<typeof book>) => b.joint('add', 'J0', 3),
    'joint-length-missing': (b: ReturnType<typeof book>) => b.joint('add', 'new', null),
    'item-not-in-string': (b: ReturnType<typeof book>) => b.joint('pull', 'elsewhere', null),
    'stick-up-missing': (b: ReturnType<typeof book>) => b.drive(null, 1),
    'stick-up-jump': (b: ReturnType<typeof book>, _: number, stick: number) =>
      b.drive(stick + 1, stick + 0.5),
    'joint-not-tight': (b: ReturnType<typeof book>, _: number, stick: number) =>
      b.joint('add', 'loose', 2, { tight: false }).drive(stick + 2, stick + 1),
    'sediment-rising': (b: ReturnType<typeof book>, shoe: number) => b.sound(shoe - 0.5).sound(shoe - 0.8),
    'plug-settled': (b: ReturnType<typeof book>, shoe: number) => b.sound(shoe - 0.8).sound(shoe - 0.5),
    'recovery-over-one': (b: ReturnType<typeof book>, shoe: number, stick: number) =>
      b
        .sound(shoe - 0.5)
        .drive(stick, stick - 0.2)
        .sound(shoe - 1.2),
    'entered-falling': (b: ReturnType<typeof book>, shoe: number, stick: number) =>
      b
        .sound(shoe - 0.8)
        .drive(stick, stick - 0.2)
        .sound(shoe - 0.3),
    'drive-after-loss': (b: ReturnType<typeof book>, _: number, stick: number) =>
      b.joint('lost', null, null).drive(stick, stick - 0.1),
    'zero-check-off': (b: ReturnType<typeof book>) =>
      b.sound(null, { purpose: 'zero_check', cable_at_collar_m: 0.12 }),
    'string-settled': (b: ReturnType<typeof book>, _: number, stick: number) =>
      b.sound(null, { purpose: 'resume', stick_up_m: stick - 0.05 }),
    'string-rebounded': (b: ReturnType<typeof book>, _: number, stick: number) =>
      b.sound(null, { purpose: 'resume', stick_up_m: stick + 0.05 }),
    'water-inside-low': (b: ReturnType<typeof book>, _: number, stick: number) =>
      b.sound(null, { to_water_inside_m: stick + 0.7, water_outside_m: 0.5 }),
    'water-inside-light': (b: ReturnType<typeof book>, _: number, stick: number) =>
      b.water('fresh').sound(null, { to_water_inside_m: stick + 0.25, water_outside_m: 0.25 }),
  } as const;
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.integer({ min: 1500, max: 6000 }), fc.integer({ min: 20, max: 90 })), {
        minLength: 1,
        maxLength: 8,
      }),
      fc.constantFrom(...(Object.keys(wrongs) as (keyof typeof wrongs)[])),
      (steps, code) => {
        const b = book().ground(0);
        let collar = 0;
        let stick = 0;
        steps.forEach(([length_mm, percent], i) => {
          const made = length_mm / 1000;
          b.joint('add', `J${i}`, made);
          collar += made;
          stick += made;
          b.drive(stick, stick - (made * percent) / 100);
          stick -= (made * percent) / 100;
        });
        assert.deepEqual(codes(b.fold()), []);
        const before = b.readings.length;
        wrongs[code](b, collar, stick);
        const fold = b.fold();
        const named = fold.findings.filter((f) => f.code === code);
        assert.ok(named.length > 0, codes(fold).join());
        assert.ok(named.every((f) => f.seq > before && f.found !== '' && f.expected !== '' && f.fix !== ''));
        // all that came before stands
        assert.deepEqual(fold.states.slice(0, before), reduceHole(b.readings.slice(0, before)).states);
      },
    ),
    { seed: 4213, numRuns: 300 },
  );
});

const length = fc.option(
  fc.oneof(
    fc.double({ min: -5, max: 30, noNaN: true }),
    fc.constantFrom(0, Number.NaN, Number.POSITIVE_INFINITY),
  ),
  { nil: null },
);
const anything: fc.Arbitrary<RigReading> = fc
  .record({
    kind: fc.constantFrom('joint', 'drive', 'sounding', 'run', 'ground', 'water'),
    seq: fc.integer({ min: 0, max: 40 }),
    row_id: fc.string({ maxLength: 3 }),
    action: fc.constantFrom('add', 'add', 'add', 'remove', 'pull', 'cut', 'left', 'lost'),
    item: fc.constantFrom('joint', 'joint', 'shoe', 'coupling', 'drive_head'),
    label: fc.option(fc.constantFrom('A', 'B', 'C', 'D'), { nil: null }),
    tight: fc.option(fc.boolean(), { nil: null }),
    purpose: fc.constantFrom(null, 'after_drive', 'zero_check'),
    loss_position: fc.constantFrom(null, 'top', 'base', 'spread', 'unknown'),
    run: fc.string({ maxLength: 2 }),
    a: length,
    b: length,
    c: length,
    d: length,
  })
  .map(
    (r) =>
      ({
        ...r,
        length_m: r.a,
        stick_up_start_m: r.a,
        stick_up_end_m: r.b,
        duration_s: r.c,
        ended_by: null,
        frequency_hz: null,
        to_sediment_m: r.a,
        cable_at_collar_m: r.b,
        to_water_inside_m: r.b,
        water_outside_m: r.c,
        collar_to_shoe_m: r.d,
        stick_up_m: r.c,
        sigma_m: r.d === null ? null : Math.abs(r.d),
        start_mark_m: r.a,
        end_mark_m: r.b,
        strokes: 3,
        recovered_m: r.c,
        fall_in_m: r.d,
        outcome: null,
        ground_below_reference_m: r.a,
        volume_l: r.a,
        water: null,
        to_water_before_m: r.b,
        to_water_after_m: r.c,
      }) as RigReading,
  );

test('random nonsense: nothing throws, every number is finite, plug + removed = entered + inflow (seed 4212)', () => {
  fc.assert(
    fc.property(fc.array(anything, { maxLength: 40 }), fc.boolean(), (readings, ended) => {
      const fold = reduceHole(readings, { ...rigDefaults, ended });
      assert.equal(fold.states.length, readings.length);
      for (const s of fold.states) {
        for (const v of Object.values(s)) if (typeof v === 'number') assert.ok(Number.isFinite(v));
        if (s.plug_m !== null) {
          assert.ok(s.plug_m >= 0);
          near(s.plug_m + s.removed_m, s.entered_m! + s.inflow_m, 1e-9);
        }
      }
      let deepest = 0;
      for (const p of fold.soundings) {
        assert.ok(p.entered_m >= 0 && p.penetration_m >= deepest - 1e-9);
        deepest = p.penetration_m;
      }
      for (const run of fold.runs) {
        placePiece(run, fold.inflows, 0, 0.5);
        assert.ok(run.removed_m >= 0);
      }
      const told = reconcile(fold.account);
      near(told.added_m, told.back_m + told.in_ground_m + told.in_string_m, 1e-9);
      assert.equal(told.says.length, told.items.left + told.items.lost + told.items.missing);
      // readings with a number that is none are named
      const bad = readings.filter((r) =>
        Object.values(r).some((v) => typeof v === 'number' && !Number.isFinite(v)),
      );
      assert.equal(codes(fold).filter((c) => c === 'not-a-number').length, bad.length);
    }),
    { seed: 4212, numRuns: 1000 },
  );
});
