/**
 * From what a crew would write down to a depth in the ground: holes are drilled in simulated ground, read with errors,
 * folded, registered, and the true depth of random places in recovered cores is compared with what comes out.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, FOOT_M, type RandomStream, randomStream } from '@stillstand/science/base';
import { depthModel, inSituDepth } from '@stillstand/science/depth';
import { placePiece, type RigReading, reduceHole, rigDefaults } from '@stillstand/science/rig';

const SOUNDING_M = 0.01;
const STICK_UP_M = 0.005;
const MAKEUP_M = 0.04;

interface Piece {
  run: string;
  core_m: number;
  depth_m: number;
}

/** Ground of sharp layers that shorten differently, less and less downwards; cells of 1 cm. */
function ground(stream: RandomStream): Float64Array {
  const entered = new Float64Array(1001);
  const ell = 1.5 + 4 * stream.uniform();
  let left = 0;
  let soft = 0;
  for (let k = 0; k < 1000; k++) {
    if (left <= 0) {
      left = 0.2 + 1.3 * stream.uniform();
      soft = [0.35, 0.6, 0.9][stream.integer(3)]!;
    }
    left -= 0.01;
    entered[k + 1] = entered[k]! + 0.01 * (1 - (1 - soft) * exp((-(k + 0.5) * 0.01) / ell));
  }
  return entered;
}

function drill(stream: RandomStream): { readings: RigReading[]; pieces: Piece[] } {
  const entered = ground(stream);
  const at = (p: number) => {
    const k = Math.min(999, Math.floor(p * 100));
    return entered[k]! + (p * 100 - k) * (entered[k + 1]! - entered[k]!);
  };
  const depthOf = (e: number) => {
    const k = Math.max(
      1,
      entered.findIndex((v) => v >= e),
    );
    return (k - 1 + (e - entered[k - 1]!) / (entered[k]! - entered[k - 1]!)) * 0.01;
  };
  const readings: RigReading[] = [];
  const pieces: Piece[] = [];
  const next = () => ({ row_id: `r${readings.length}`, seq: readings.length * 10 });
  const below = 0.25;
  readings.push({ kind: 'ground', ...next(), ground_below_reference_m: below });
  let collar = 0;
  let penetration = 0;
  let removed = 0;
  let joints = 0;
  let runs = 0;
  const sound = (purpose: string) => {
    const plug = at(penetration) - removed;
    readings.push({
      kind: 'sounding',
      ...next(),
      purpose,
      to_sediment_m: collar - plug + SOUNDING_M * stream.normal(),
      cable_at_collar_m: null,
      to_water_inside_m: null,
      water_outside_m: null,
      collar_to_shoe_m: null,
      stick_up_m: null,
      sigma_m: SOUNDING_M,
    });
  };
  while (penetration < 7.5) {
    // collar less than 0.6 m above the reference: another joint
    if (collar - penetration - below < 0.6) {
      const length_m = stream.uniform() < 0.5 ? 10 * FOOT_M : 2;
      readings.push({
        kind: 'joint',
        ...next(),
        action: 'add',
        item: 'joint',
        label: `J${joints}`,
        length_m,
        tight: true,
      });
      collar += length_m - (joints > 0 ? MAKEUP_M : 0);
      joints++;
    }
    const stick = () => collar - penetration - below + STICK_UP_M * stream.normal();
    const stick_up_start_m = stick();
    penetration += Math.min(0.4 + 0.8 * stream.uniform(), collar - penetration - below - 0.1);
    readings.push({
      kind: 'drive',
      ...next(),
      stick_up_start_m,
      stick_up_end_m: stick(),
      duration_s: 60,
      ended_by: null,
      frequency_hz: null,
    });
    if (stream.uniform() < 0.8) sound('after_drive');
    const plug = at(penetration) - removed;
    if (plug < 1.2) continue;
    sound('before_run');
    const take = plug - 0.8;
    const loss = take * 0.15 * stream.uniform();
    const part = stream.uniform();
    const loss_position = (['top', 'base', 'unknown'] as const)[stream.integer(3)]!;
    const onTop = loss_position === 'top' ? loss : loss_position === 'base' ? 0 : part * loss;
    const run = `R${runs++}`;
    const fall_in_m = stream.uniform() < 0.3 ? 0.1 : 0;
    readings.push({
      kind: 'run',
      ...next(),
      run,
      start_mark_m: collar - plug,
      end_mark_m: collar - plug + take,
      strokes: 5,
      recovered_m: take - loss + fall_in_m,
      fall_in_m,
      loss_position,
      outcome: 'full',
    });
    for (let q = 0; q < 2; q++) {
      const core = (take - loss) * stream.uniform();
      pieces.push({ run, core_m: core + fall_in_m, depth_m: depthOf(removed + onTop + core) });
    }
    removed += take;
    sound('after_run');
  }
  return { readings, pieces };
}

test('readings to depth: 93–97 % of true depths of pieces inside 95 % (seed 4241)', () => {
  const root = randomStream(4241);
  let inside = 0;
  let asked = 0;
  let squares = 0;
  for (let h = 0; h < 300; h++) {
    const stream = root.split(h);
    const { readings, pieces } = drill(stream);
    const fold = reduceHole(readings, { ...rigDefaults, makeup_loss_m: MAKEUP_M });
    // readings with errors sometimes look odd; nothing may be dangerous or unusable
    assert.ok(fold.findings.every((f) => f.severity === 'warning' || f.severity === 'note'));
    const model = depthModel(
      { from_m: 0, penetration_m: fold.deepest_m!, registration: fold.registration },
      stream.split('model'),
    );
    for (const piece of pieces) {
      const run = fold.runs.find((r) => r.run === piece.run)!;
      const place = placePiece(run, fold.inflows, piece.core_m, piece.core_m + 0.01)!;
      const d = inSituDepth(model, place.top);
      if (piece.depth_m >= d.lower95 && piece.depth_m <= d.upper95) inside++;
      squares += (d.value - piece.depth_m) ** 2;
      asked++;
    }
  }
  // 0.02 about 0.95 is what a user would not see: six binomial sds of 4,800 pieces (0.003), those of one hole taken as apart.
  console.log(
    `inside ${(inside / asked).toFixed(4)} of ${asked}, rms ${Math.sqrt(squares / asked).toFixed(4)} m`,
  );
  assert.ok(inside / asked > 0.93 && inside / asked < 0.97, `${inside / asked}`);
});
