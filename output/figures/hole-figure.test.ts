/**
 * The hole to scale: what the drawing shows is what the readings say, and each stage of a hole looks as it is stored.
 * STILLSTAND_UPDATE=1 rewrites the stored drawings; look at what changed before committing.
 */
import assert from 'node:assert/strict';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { test } from 'node:test';
import { cableMarks, inHole, type RigReading, rigDefaults } from '@stillstand/science/rig';
import { clearOf } from './hole-figure/end.tsx';
import { type Figure, type HoleView, holeFigure, holeView } from './index.ts';

const settings = { ...rigDefaults, makeup_loss_m: 0.03 };

/** A hole of three joints, up to and including the reading of this seq. */
function readingsTo(seq: number): RigReading[] {
  const joint = (at: number, label: string, length_m: number, tight: boolean | null = true): RigReading => ({
    kind: 'joint',
    row_id: `j${at}`,
    seq: at,
    action: 'add',
    item: label === 'S' ? 'shoe' : 'joint',
    label,
    length_m,
    tight,
  });
  const drive = (at: number, from: number, to: number): RigReading => ({
    kind: 'drive',
    row_id: `d${at}`,
    seq: at,
    stick_up_start_m: from,
    stick_up_end_m: to,
    duration_s: 60,
    ended_by: 'length',
    frequency_hz: null,
  });
  const sound = (
    at: number,
    to_sediment_m: number,
    inside: number | null = null,
    outside: number | null = null,
  ): RigReading => ({
    kind: 'sounding',
    row_id: `s${at}`,
    seq: at,
    purpose: null,
    to_sediment_m,
    cable_at_collar_m: null,
    to_water_inside_m: inside,
    water_outside_m: outside,
    collar_to_shoe_m: null,
    stick_up_m: null,
    sigma_m: null,
  });
  const run = (at: number, start: number, end: number | null, recovered: number | null): RigReading => ({
    kind: 'run',
    row_id: `r${at}`,
    seq: at,
    run: `R${at}`,
    start_mark_m: start,
    end_mark_m: end,
    strokes: null,
    recovered_m: recovered,
    fall_in_m: null,
    loss_position: null,
    outcome: recovered === null ? null : 'full',
  });
  const out = (at: number, action: 'pull' | 'lost', label: string): RigReading => ({
    kind: 'joint',
    row_id: `o${at}`,
    seq: at,
    action,
    item: label === 'S' ? 'shoe' : 'joint',
    label,
    length_m: null,
    tight: null,
  });
  const all: RigReading[] = [
    { kind: 'ground', row_id: 'g1', seq: 1, ground_below_reference_m: 0.27 },
    joint(2, 'S', 0.15),
    joint(3, 'A1', 3),
    // string 3.12: 2.50 m in the ground
    drive(4, 2.85, 0.35),
    sound(5, 1.02, 0.1, 1.65),
    run(6, 1.02, 2.1, 1.05),
    sound(7, 2.09),
    // string 6.09
    joint(8, 'A2', 3, null),
    drive(9, 3.32, 1.6),
    sound(10, 3.5, 0.08, 1.6),
    run(11, 3.5, 5.3, null),
    run(12, 3.5, 5.3, 1.2),
    out(13, 'pull', 'A2'),
    out(14, 'lost', 'A1'),
    out(15, 'lost', 'S'),
  ];
  // the run in hand is the same run laid out later
  return all.filter((r) => r.seq <= seq && !(seq > 11 && r.seq === 11));
}

function viewAt(seq: number): HoleView {
  const now = inHole(readingsTo(seq), settings);
  const inHand = seq === 11;
  const length = now.fold.collar_to_shoe_m;
  return holeView({
    hole: 'T3',
    now,
    units:
      seq < 9
        ? []
        : [
            {
              top_m: 0,
              bottom_m: 0.9,
              sediment: 'sand',
              secondary_sediment: null,
              contact_below: 'erosional',
            },
            { top_m: 0.9, bottom_m: 1.6, sediment: 'peat', secondary_sediment: null, contact_below: 'sharp' },
          ],
    sampled_to_m: seq < 6 ? null : 1.6,
    marks:
      inHand && length !== null
        ? cableMarks(3.5, length, now.fold.joints_in, 0.5, settings).map((m, i) => ({
            ...m,
            label: `+${(i / 2).toFixed(1)} m`,
          }))
        : [],
  });
}

const near = (a: number | null, b: number) =>
  assert.ok(a !== null && Math.abs(a - b) < 1e-9, `${a} is not ${b}`);

test('tape is drawn only where somebody said it is: null says that nobody has', () => {
  const readings = readingsTo(11);
  const view = (marks?: null) =>
    holeView({
      hole: 'T3',
      now: inHole(readings, settings),
      ...(marks === null ? { marks } : {}),
    });
  assert.deepEqual([view(null).marks, view(null).unmarked], [[], true]);
  assert.equal(view().unmarked, false);
});

test('the view is worked out from the readings as by hand', () => {
  const view = viewAt(10);
  near(view.collar_to_shoe_m, 6.09);
  near(view.shoe_depth_m, 6.09 - 1.6 - 0.27);
  near(view.collar_above_ground_m, 1.87);
  near(view.plug_m, 6.09 - 3.5);
  near(view.water_inside_m, 0.08);
  near(view.water_outside_m, 1.6 - 0.27);
  near(view.head_m, 1.6 + 1.6 - 0.08);
  near(view.stop_m, 6.09 - 0.3);
  assert.deepEqual(
    view.items.map((i) => [i.label, Number(i.made_up_m?.toFixed(3)), i.tight]),
    [
      ['S', 0.15, true],
      ['A1', 2.97, true],
      ['A2', 2.97, null],
    ],
  );
});

test('the plug is blank after a drive until it is sounded, and the water inside until it is read', () => {
  const view = viewAt(9);
  assert.equal(view.plug_m, null);
  // 1.03 m was left of it, and 1.69 m were driven
  near(view.plug_at_most_m, 3.12 - 2.09 + (6.09 - 1.6 - 0.27 - 2.5));
  assert.equal(view.water_inside_m, null);
  assert.equal(view.head_m, null);
  const readings = readingsTo(9);
  near(inHole(readings, settings).water.outside_m, 1.65);
});

test('a lost string lies where it was last known to be, the deepest item at the shoe', () => {
  const { left } = viewAt(15);
  assert.deepEqual(
    left.map((l) => l.label),
    ['A1', 'S'],
  );
  near(left.at(-1)!.bottom_m, 6.09 - 1.6 - 0.27);
  // the two overlap by the thread that joins them
  near(left[0]!.bottom_m - left[1]!.top_m, settings.makeup_loss_m);
});

/** The second joint driven three times: 1.72, then 0.79 and 0.11 m in a minute. */
function slowing(): HoleView {
  const readings = readingsTo(8);
  for (const [i, [from, to]] of [
    [3.32, 1.6],
    [1.6, 0.81],
    [0.81, 0.7],
  ].entries())
    readings.push({
      kind: 'drive',
      row_id: `t${i}`,
      seq: 20 + i,
      stick_up_start_m: from!,
      stick_up_end_m: to!,
      duration_s: 60,
      ended_by: i === 2 ? 'refusal' : 'length',
      frequency_hz: null,
    });
  return holeView({ hole: 'T3', now: inHole(readings, settings), rates: true });
}

test('while the last thing done is a timed drive, every drive has its rate against its depth', () => {
  const { drives } = slowing();
  assert.deepEqual(
    drives?.map((d) => [d.rate_m_per_min.toFixed(2), d.pace]),
    [
      ['2.50', null],
      ['1.72', 'steady'],
      ['0.79', 'slowing'],
      ['0.11', 'refusal'],
    ],
  );
  near(drives!.at(-1)!.to_m, 6.09 - 0.7 - 0.27);
  assert.equal(viewAt(10).drives, null);
});

test('the line from the clearance to its number strikes through no label', () => {
  // labels are 8.2 points high: one at 100 takes 95.9 to 104.1, one at 120 takes 115.9 to 124.1
  const labels = [{ y: 100 }, { y: 120 }];
  const clear = (wanted: number, y1: number, y2: number) => clearOf(labels, wanted, y1, y2);
  assert.equal(clear(110, 95, 118), 110);
  near(clear(101, 95, 118), 104.1);
  near(clear(117, 95, 118), 115.9);
  // nothing free between tip and shoe: no line rather than one through the words
  assert.equal(clear(100, 98, 103), null);
});

test('what is expected is drawn below the shoe alone, named so, and takes little of the scale', () => {
  const ahead = (...layers: [string, number, number][]): HoleView =>
    holeView({
      hole: 'T3',
      now: inHole(readingsTo(10), settings),
      ahead: layers.map(([sediment, from_m, to_m]) => ({ sediment, from_m, to_m, present: 0.8 })),
    });
  const layers: [string, number, number][] = [
    ['sand', 3, 4],
    ['clay', 4, 5],
    ['peat', 5, 5.3],
    ['gravel', 30, 60],
  ];
  const view = ahead(...layers);
  // the shoe is at 6.09 − 1.6 − 0.27
  near(view.ahead[0]!.from_m, 4.22);
  assert.deepEqual(
    view.ahead.map(({ sediment }) => sediment),
    ['clay', 'peat', 'gravel'],
  );
  const { svg, caption } = holeFigure(view);
  for (const word of ['expected', 'clay', 'peat']) assert.equal(svg.split(`>${word}<`).length, 2, word);
  // as far as 4.47 m and 1.5 more
  assert.doesNotMatch(svg, />gravel</);
  assert.match(JSON.stringify(caption), /Expected below, not seen: clay down to 5\.0 m, peat down to 5\.3 m/);
  const without = holeFigure(ahead()).svg;
  assert.doesNotMatch(without, />expected</);
  assert.equal(without, holeFigure({ ...view, ahead: [] }).svg);
});

const FIGURES: Record<string, () => Figure> = {
  'hole-slowing-warns': () => holeFigure(slowing()),
  'hole-begun': () => holeFigure(viewAt(1)),
  'hole-driven': () => holeFigure(viewAt(9)),
  'hole-sounded': () => holeFigure(viewAt(10)),
  'hole-run-in-hand': () => holeFigure(viewAt(11)),
  // the old fault: tape drawn on a cable that nobody had marked
  'hole-unmarked-warns': () => holeFigure({ ...viewAt(11), marks: [], unmarked: true }),
  'hole-run-in-hand-by-night': () => holeFigure(viewAt(11), { theme: 'night', caption: false }),
  'hole-past-shoe-warns': () => {
    const view = viewAt(11);
    return holeFigure({ ...view, sampler: { ...view.sampler!, tip_m: 6.2 }, verdict: 'past shoe' });
  },
  'hole-pulled-warns': () => holeFigure(viewAt(14)),
  'hole-lost-warns': () => holeFigure(viewAt(15)),
};

for (const [name, make] of Object.entries(FIGURES)) {
  const file = new URL(`./fixtures/${name}.svg`, import.meta.url);
  test(`figure ${name} is as stored, warns where its name says so, and is sound`, () => {
    const { svg, warnings, width_mm, height_mm } = make();
    if (process.env['STILLSTAND_UPDATE'] === '1' || !existsSync(file)) writeFileSync(file, `${svg}\n`);
    assert.ok(
      svg === readFileSync(file, 'utf8').trimEnd(),
      `${name} has changed: run with STILLSTAND_UPDATE=1 and look`,
    );
    assert.equal(warnings.length > 0, name.includes('warns'), warnings.join('; '));
    assert.equal(width_mm, 90);
    assert.ok(height_mm > 20 && height_mm < 260);
    assert.doesNotMatch(svg, /NaN|Infinity|undefined|null/);
    const coarse = /"[^"<>]*\d\.\d{3}[^"<>]*"/.exec(svg);
    assert.equal(coarse, null, coarse?.[0].slice(0, 80));
    const ids = [...svg.matchAll(/ id="([^"]+)"/g)].map((m) => m[1]);
    assert.equal(new Set(ids).size, ids.length, 'an id is used twice');
  });
}
