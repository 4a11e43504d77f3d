/**
 * A string hole drilled forward: pipe added joint by joint, vibrated down, sounded, watered, sampled through the
 * string, and drawn again or lost. Sediment enters at the shoe a slice at a time, shortened by a law the readings
 * never state, and leaves at the top of the plug in the sampler. Long because it is one working day from first
 * joint to last.
 */
import type { RandomStream } from '@stillstand/science/base';
import { type Core, cutAt, lengthOf, type Slice, stretched } from './core.ts';
import { type FieldBook, openBook } from './field-book.ts';
import { MAKEUP_LOSS_M, type Pipe, pipe, SHOE } from './pipe.ts';
import { layerAt, type Place } from './section.ts';
import { centimetres, feet, metres, plain, type Sheets } from './sheet.ts';
import { drawShortening, localRecovery, type Shortening } from './shortening.ts';

export interface StringPlan {
  hole: string;
  place: Place;
  target_m: number;
  /** Labels of the joints in the order they go in. */
  pipes: readonly string[];
  days: readonly string[];
  tape: 'feet' | 'metres';
  device: string;
  /** Ground below the reference at the start, metres. */
  peg_m: number;
  /** Water outside below the reference, metres, about. */
  water_m: number;
  /** The ground sinks (positive) once the shoe has passed this depth. */
  sinking?: { past_m: number; by_m: number; cause: string };
  /** The string parts while being freed from an obstruction at this depth. */
  parts_at_m?: number;
  /** Numbers of the runs at which something happens. */
  fall_in_at?: number;
  lost_lifting_at?: number;
  /** The sounding after this run is typed with two figures changed about, and mended two readings later. */
  slip_at?: number;
  /** A sounding of another hole is typed here after this run, and withdrawn. */
  stray_after?: number;
  /** The plug settles overnight by this much, metres. */
  settles_m?: number;
}

export interface DrilledHole extends Shortening {
  cores: Core[];
  /** Shoe below the ground at the start, at the end of driving, metres. */
  penetration_m: number;
  entered_m: number;
  /** Least true clearance of any run, metres. */
  least_clearance_m: number;
  /** Longest true plug less the string it was in, metres: negative in any real hole. */
  plug_over_string_m: number;
  /** Labels of what stayed in the ground. */
  left: string[];
}

/** Penetration in which one slice enters, metres. */
const SLICE_M = 0.005;
/** Least distance of the sampler from the shoe: kept by the crew, and once a hole, at its end. */
const KEPT_CLEAR_M = 0.68;
const LAST_CLEAR_M = 0.42;
const CAPACITY_M = 1.15;
/** 1 sigma of a reading at the collar, and of a sounding, metres. */
const COLLAR_SIGMA_M = 0.004;
const SOUNDING_SIGMA_M = 0.015;

export function drillString(plan: StringPlan, sheets: Sheets, stream: RandomStream): DrilledHole {
  const random = stream.split(plan.hole);
  const law = drawShortening(random.split('shortening'));
  const noise = random.split('readings');
  const luck = random.split('luck');
  const ground_m = plan.place.ground_m;

  const book: FieldBook = openBook(sheets, plan.hole, plan.days[0]!, plan.device);
  const typed = plan.tape === 'feet' ? (m: number) => feet(m, 2) : metres;
  const atCollar = (true_m: number) => typed(true_m + COLLAR_SIGMA_M * noise.normal());
  const sounded = (true_m: number) => typed(true_m + SOUNDING_SIGMA_M * noise.normal());

  const string: Pipe[] = [];
  let string_m = 0;
  let believed_m = 0;
  let shoe_m = 0;
  let peg_m = plan.peg_m;
  let plug: Slice[] = [];
  let removed_m = 0;
  let run = 0;
  let day = 0;
  let water_in_m = 0.15;
  const cores: Core[] = [];
  let least_clearance_m = Number.POSITIVE_INFINITY;
  let plug_over_string_m = Number.NEGATIVE_INFINITY;
  const left: string[] = [];

  const stickUp = () => string_m - shoe_m - plan.peg_m;
  const toSediment = () => string_m - lengthOf(plug);
  const sigma = () => (plan.tape === 'feet' ? '1/2 in' : centimetres(SOUNDING_SIGMA_M + 0.0001));

  const add = (joint: Pipe, item: 'joint' | 'shoe') => {
    const loss = string.length === 0 ? 0 : MAKEUP_LOSS_M;
    string.push(joint);
    string_m += joint.length_m - loss;
    believed_m += joint.typed_m - loss;
    book.read('string_items', 'hand', 4, {
      action: 'add',
      item,
      joint: joint.label,
      length: joint.typed,
      tight: item === 'joint' ? true : undefined,
    });
  };

  const sound = (purpose: string, minutes: number, more: Record<string, string> = {}): string => {
    plug_over_string_m = Math.max(plug_over_string_m, lengthOf(plug) - string_m);
    return book.read('soundings', 'driller', minutes, {
      purpose,
      to_sediment: sounded(toSediment()),
      sigma: sigma(),
      ...more,
    });
  };

  const drive = (to_m: number, ended_by: string) => {
    const start = stickUp();
    const from_m = shoe_m;
    const steps = Math.round((to_m - from_m) / SLICE_M);
    for (let i = 0; i < steps; i++) {
      const depth_m = from_m + (i + 0.5) * SLICE_M;
      const layer = layerAt(plan.place, ground_m - depth_m);
      plug.push({ depth_m, length_m: SLICE_M * localRecovery(law, depth_m, layer.shortening) });
    }
    shoe_m = from_m + steps * SLICE_M;
    const speed = 0.035 / (1 + from_m / 9);
    book.read('drives', 'driller', 12, {
      stick_up_start: atCollar(start),
      stick_up_end: atCollar(stickUp()),
      duration_s: Math.round(((shoe_m - from_m) / speed) * (0.85 + 0.3 * luck.uniform())),
      ended_by,
      frequency_hz: plain(172 + 4 * luck.normal(), 0),
    });
    water_in_m += 0.1 + 0.15 * luck.uniform();
    sound('after_drive', 6, {
      to_water_inside: typed(water_in_m),
      water_outside: typed(plan.water_m + 0.05 * noise.normal()),
      collar_to_shoe: plan.tape === 'feet' ? feet(believed_m) : metres(believed_m, 3),
      stick_up: atCollar(stickUp()),
    });
  };

  const topUp = () => {
    const before = water_in_m;
    water_in_m = 0.05 + 0.05 * luck.uniform();
    book.read('water_added', 'hand', 5, {
      // 77.9 mm bore: 4.77 litres a metre.
      volume_l: plain((before - water_in_m) * 4.77 + 1, 1),
      kind: 'sea',
      to_water_before: typed(before),
      to_water_after: typed(water_in_m),
    });
  };

  const sample = (clear_m: number) => {
    run += 1;
    const label = `R${run}`;
    const before_m = toSediment();
    sound('before_run', 9);
    const taken_m = Math.min(CAPACITY_M - 0.1 * luck.uniform(), lengthOf(plug) - clear_m);
    const [taken, rest] = cutAt(plug, taken_m);
    plug = rest;
    removed_m += taken_m;
    const tip_m = before_m + taken_m;
    least_clearance_m = Math.min(least_clearance_m, string_m - tip_m);

    const lost = run === plan.lost_lifting_at;
    const kept = lost ? 0 : Math.min(1, 0.985 - 0.045 * Math.abs(luck.normal()));
    // The first run takes the turf whole; later a valve loses more often from its foot than from its head.
    const where = luck.uniform();
    const loss_position = lost
      ? 'unknown'
      : run === 1 || where < 0.65
        ? 'base'
        : where < 0.9
          ? 'top'
          : 'unknown';
    const [upper, lower] = cutAt(taken, loss_position === 'top' ? taken_m * (1 - kept) : taken_m * kept);
    const up = lost ? [] : loss_position === 'top' ? lower : upper;
    const fall_in_m = run === plan.fall_in_at ? 0.09 : 0;
    const slices = fall_in_m > 0 ? [{ depth_m: null, length_m: fall_in_m }, ...up] : up;
    const start = before_m + 0.01 * noise.normal();
    const recovered_m = lengthOf(slices);
    book.read('runs', 'geologist', 14, {
      run: label,
      sampler: 'V50',
      start_mark: typed(start),
      end_mark: typed(tip_m + 0.01 * noise.normal()),
      strokes: 12 + Math.round(14 * taken_m * (0.8 + 0.5 * luck.uniform())),
      recovered: metres(recovered_m),
      fall_in: fall_in_m > 0 ? metres(fall_in_m) : undefined,
      loss_position,
      outcome: lost ? 'lost_lifting' : taken_m > 1 ? 'full' : 'part',
      note: lost ? 'valve held open by a pebble; came up empty' : fall_in_m > 0 ? 'loose sand on top' : '',
    });
    cores.push({ hole: plan.hole, label, basis: 'run', slices });

    const truth_m = toSediment();
    if (run === plan.slip_at) {
      const right = metres(truth_m + SOUNDING_SIGMA_M * noise.normal());
      const slip = changedAbout(right);
      const wrong = book.read('soundings', 'driller', 7, {
        purpose: 'after_run',
        to_sediment: slip,
        sigma: sigma(),
      });
      layOut(label, fall_in_m, recovered_m);
      book.read('soundings', 'geologist', 3, {
        purpose: 'after_run',
        to_sediment: right,
        sigma: sigma(),
        amends: wrong,
        amend_kind: 'replace',
        note: `typed ${slip}; the cable and the paper book say ${right}`,
      });
    } else {
      sound('after_run', 7);
      layOut(label, fall_in_m, recovered_m);
    }
    if (run === plan.stray_after) {
      const stray = sound('other', 10, { to_sediment: metres(truth_m + 1.62) });
      book.read('soundings', 'geologist', 4, {
        purpose: 'other',
        amends: stray,
        amend_kind: 'withdraw',
        note: 'a sounding of another hole, typed here by mistake',
      });
    }
  };

  const layOut = (label: string, fall_in_m: number, recovered_m: number) => {
    const count = Math.max(1, Math.ceil((recovered_m - fall_in_m) / 0.6));
    if (recovered_m - fall_in_m < 0.01) return;
    const end_m = Math.round(recovered_m * 100) / 100;
    for (let i = 0; i < count; i++) {
      const edge = (k: number) => fall_in_m + ((end_m - fall_in_m) * k) / count;
      book.read('pieces', 'geologist', 3, {
        run: label,
        top: metres(edge(i)),
        bottom: metres(edge(i + 1)),
        tray: `${plan.hole}-${Math.ceil(run / 3)}`,
        condition: luck.uniform() < 0.85 ? 'intact' : 'broken',
      });
    }
  };

  const draw = () => {
    const parts = plan.parts_at_m !== undefined;
    const drawn = parts ? 2 : string.length - 1;
    for (let i = 0; i < drawn; i++) {
      const joint = string[string.length - 1 - i]!;
      book.read('string_items', 'driller', 7, {
        action: 'pull',
        item: 'joint',
        joint: joint.label,
        line_load_kn: plain(Math.max(3, (parts ? 24 : 4 + 0.9 * shoe_m) * (1 - i / (string.length + 1))), 1),
      });
    }
    const under = string.slice(0, string.length - drawn).reverse();
    for (const joint of under) {
      const item = joint === SHOE ? 'shoe' : 'joint';
      if (parts) left.push(joint.label);
      book.read('string_items', 'driller', 2, { action: parts ? 'lost' : 'pull', item, joint: joint.label });
    }
  };

  // Set-up: ground, shoe and the first joint.
  book.read('ground_levels', 'geologist', 5, { ground_below_reference: atCollar(peg_m) });
  add(SHOE, 'shoe');
  const stack = plan.pipes.map((label) => pipe(stream.split('pipe'), label));
  let next = 0;
  const end_m = plan.parts_at_m ?? plan.target_m;
  let sunk = false;

  while (shoe_m < end_m - 0.02) {
    while (stickUp() < 1.25) {
      const joint = stack[next++];
      if (joint === undefined) throw new RangeError(`hole ${plan.hole}: ${stack.length} joints are too few`);
      add(joint, 'joint');
      water_in_m += joint.length_m - MAKEUP_LOSS_M;
    }
    if (water_in_m > 0.4) topUp();
    if (shoe_m > 0) sound('before_drive', 5);
    const step = Math.min(1.15 + 0.35 * luck.uniform(), stickUp() - 0.3, end_m - shoe_m);
    const to_m = end_m - shoe_m - step < 0.35 ? Math.min(end_m, shoe_m + stickUp() - 0.15) : shoe_m + step;
    const last = to_m >= end_m - 0.02;
    drive(to_m, !last ? 'length' : plan.parts_at_m === undefined ? 'slowing' : 'obstruction');

    if (!sunk && plan.sinking !== undefined && shoe_m > plan.sinking.past_m) {
      sunk = true;
      peg_m += plan.sinking.by_m;
      book.read('ground_levels', 'geologist', 4, {
        ground_below_reference: atCollar(peg_m),
        cause: plan.sinking.cause,
      });
    }
    while (lengthOf(plug) - KEPT_CLEAR_M > 0.5) sample(KEPT_CLEAR_M);
    if (last && plan.parts_at_m === undefined && lengthOf(plug) - LAST_CLEAR_M > 0.15) sample(LAST_CLEAR_M);

    if (!last && book.minute() > 16 * 60 + 20) {
      day += 1;
      const settled = plan.settles_m ?? 0;
      const length = lengthOf(plug);
      if (day === 1 && settled > 0) plug = stretched(plug, (length - settled) / length);
      book.nextDay(plan.days[day] ?? plan.days[plan.days.length - 1]!);
      sound('resume', 10, { to_water_inside: typed(water_in_m + 0.3) });
      water_in_m += 0.3;
    }
  }
  draw();
  return {
    cores,
    penetration_m: shoe_m,
    entered_m: removed_m + lengthOf(plug),
    ...law,
    least_clearance_m,
    plug_over_string_m,
    left,
  };
}

/** A slip of the fingers: the last figure before the point and the first after it change places. */
function changedAbout(reading: string): string {
  return reading.replace(/(\d)\.(\d)/, '$2.$1');
}
