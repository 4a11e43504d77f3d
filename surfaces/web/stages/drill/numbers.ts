/**
 * The four numbers that matter, each with its ± (2 sd) and the sum that made it. A number nobody can know yet is a dash
 * and says what to read. The fourth is what is next at risk: the clearance while a sampler is in the string, the load
 * while the string is drawn, else the water. Past 250 lines because each of the seven numbers has its own sum.
 */
import { exitGradient, pullEstimate } from '@stillstand/science/rig';
import { soundedNow } from './cable.ts';
import type { HoleNow } from './hole-now.ts';
import { m2, saidLength, signed2 } from './lengths.ts';
import { drawing } from './next-action.ts';

type Level = 'normal' | 'caution' | 'danger';

export interface BigNumber {
  name: string;
  /** Null where it is not known. */
  value: string | null;
  unit: string;
  /** 2 sd, with the decimals of the value. */
  spread: string | null;
  /** The sum that made it, or what to read so that it can be known. */
  sum: string;
  level: Level;
  /** Of the state, beside its shape; empty when normal. */
  word: string;
  /** What to do about it, or the distance left. */
  say: string;
  /** The number in the crew's own unit, where that is feet. */
  crew: string | null;
}

const unknown = (name: string, unit: string, sum: string): BigNumber => ({
  name,
  value: null,
  unit,
  spread: null,
  sum,
  level: 'normal',
  word: '',
  say: '',
  crew: null,
});

const known = (name: string, value: string, unit: string, spread: string | null, sum: string): BigNumber => ({
  ...unknown(name, unit, sum),
  value,
  spread,
});

/** 1 sigma of collar to shoe: joints err independently. */
const stringSigma = (now: HoleNow): number => Math.sqrt(now.fold.joints_in) * now.settings.joint_sigma_m;

const spread2 = (sigma: number): string => m2(Math.max(0.01, 2 * sigma));

export function shoeDepth(now: HoleNow): BigNumber {
  const name = 'Shoe depth';
  const length = now.fold.collar_to_shoe_m;
  const last = now.last;
  if (now.string.length === 0) {
    const deepest = now.fold.deepest_m;
    if (deepest === null) return unknown(name, 'm', 'no string in the hole');
    return {
      ...known('Deepest shoe', m2(deepest), 'm', null, 'the farthest it was driven'),
      crew: inFeet(deepest, now),
    };
  }
  if (length === null) return unknown(name, 'm', 'the length of a joint is missing');
  if (last?.penetration_now_m == null || last.stick_up_m === null)
    return unknown(name, 'm', drawing(now) ? 'the string is coming out' : 'read the stick-up');
  const ground = now.ground_m ?? 0;
  const sigma = Math.hypot(stringSigma(now), now.settings.stick_up_sigma_m);
  const less = ground === 0 ? '' : ground > 0 ? ` − ground ${m2(ground)}` : ` + ground ${m2(-ground)}`;
  return {
    ...known(
      name,
      m2(last.penetration_now_m),
      'm',
      spread2(sigma),
      `string ${m2(length)} − stick-up ${m2(last.stick_up_m)}${less}`,
    ),
    crew: inFeet(last.penetration_now_m, now),
  };
}

export function plugLength(now: HoleNow): BigNumber {
  const name = 'Plug length';
  const length = now.fold.collar_to_shoe_m;
  if (now.string.length === 0) {
    const entered = now.fold.entered_m;
    if (entered === null || now.fold.drives.length === 0) return unknown(name, 'm', 'no string in the hole');
    const runs = now.fold.runs.length;
    return known(
      'Entered in all',
      m2(entered),
      'm',
      null,
      `${runs} ${runs === 1 ? 'run' : 'runs'} took ${m2(now.last?.removed_m ?? 0)} m`,
    );
  }
  if (length === null) return unknown(name, 'm', 'the length of a joint is missing');
  const sounded = soundedNow(now);
  if (sounded !== null && length - sounded > -0.05) {
    const sounding = now.readings.findLast((r) => r.kind === 'sounding' && r.to_sediment_m !== null);
    const own = sounding?.kind === 'sounding' ? sounding.sigma_m : null;
    const sigma = Math.hypot(stringSigma(now), own ?? now.settings.sounding_sigma_m);
    const plug = Math.max(0, length - sounded);
    return {
      ...known(name, m2(plug), 'm', spread2(sigma), `string ${m2(length)} − sounding ${m2(sounded)}`),
      crew: inFeet(plug, now),
    };
  }
  const last = now.last;
  const run = now.fold.runs.at(-1);
  if (
    last?.plug_m != null &&
    run !== undefined &&
    run.removed_from !== 'soundings' &&
    now.readings.at(-1)?.kind !== 'drive'
  ) {
    return {
      ...known(
        name,
        m2(last.plug_m),
        'm',
        spread2(run.removed_sigma_m),
        `${m2(last.plug_m + run.removed_m)} − ${m2(run.removed_m)} taken by ${run.run}`,
      ),
      crew: inFeet(last.plug_m, now),
    };
  }
  if (last?.plug_m != null && now.fold.drives.length === 0)
    return known(name, m2(last.plug_m), 'm', null, 'not driven yet');
  if (last?.plug_m != null && now.readings.at(-1)?.kind === 'joint')
    return {
      ...known(
        name,
        m2(last.plug_m),
        'm',
        spread2(now.settings.sounding_sigma_m),
        `as sounded before the joint was added`,
      ),
      crew: inFeet(last.plug_m, now),
    };
  return unknown(name, 'm', 'sound the sediment');
}

export function lastRecovery(now: HoleNow): BigNumber {
  const name = 'Recovery, last drive';
  const drive = now.fold.drives.at(-1);
  const total = now.last?.recovery ?? null;
  const all = total === null ? '' : `all drives ${(total * 100).toFixed(0)} %`;
  if (drive === undefined) return unknown(name, '%', 'not driven yet');
  if (drive.recovery === null || drive.entered_m === null) {
    return unknown(name, '%', all === '' ? 'sound the sediment' : `sound the sediment; ${all}`);
  }
  const advance = drive.to_m - drive.from_m;
  const first = now.fold.drives.length === 1;
  const sounding = now.settings.sounding_sigma_m;
  const entered = first ? sounding : Math.SQRT2 * sounding;
  const driven = Math.SQRT2 * now.settings.stick_up_sigma_m;
  const sigma = Math.hypot(entered, drive.recovery * driven) / advance;
  return known(
    name,
    (drive.recovery * 100).toFixed(0),
    '%',
    Math.max(1, 200 * sigma).toFixed(0),
    `${m2(drive.entered_m)} m entered of ${m2(advance)} driven${all === '' ? '' : `; ${all}`}`,
  );
}

/** What is next at risk. */
export function atRisk(now: HoleNow): BigNumber {
  if (now.run !== null) return clearance(now);
  if (drawing(now) && now.string.length > 0) return lineLoad(now);
  return waterHead(now);
}

function clearance(now: HoleNow): BigNumber {
  const name = 'Clearance';
  const run = now.run!;
  const length = now.fold.collar_to_shoe_m;
  const c = now.clearance;
  if (c === null || length === null)
    return unknown(name, 'm', length === null ? 'the length of a joint is missing' : 'read the cable');
  const tip = run.end_mark_m ?? run.start_mark_m ?? 0;
  const base: BigNumber = {
    ...known(
      name,
      m2(c.clearance_m),
      'm',
      spread2(c.sigma_m),
      `shoe ${m2(length)} − tip ${m2(tip)}, from the collar`,
    ),
    crew: inFeet(c.clearance_m, now),
  };
  const left = c.clearance_m - c.margin_m;
  switch (c.verdict) {
    case 'clear':
      return { ...base, say: `${m2(left)} m to the stop mark` };
    case 'close':
      return { ...base, level: 'caution', word: 'Close', say: `${m2(left)} m to the stop mark` };
    case 'stop':
      return { ...base, level: 'danger', word: 'Stop', say: 'No deeper. Lift the sampler.' };
    case 'past shoe':
      return { ...base, level: 'danger', word: 'Stop', say: 'Past the shoe: lift it now, slowly.' };
  }
}

/** What the line may have to carry: as last read, else the wide range of the estimate; always with its caution. */
function lineLoad(now: HoleNow): BigNumber {
  const load = loads(now).at(-1) ?? null;
  const length = now.fold.collar_to_shoe_m;
  // its height is not read while it comes out: no more of it is in the ground than it is long
  const inGround = length === null ? null : Math.min(length, now.fold.deepest_m ?? 0);
  const estimate =
    now.pipe === null || length === null || inGround === null
      ? null
      : pullEstimate({
          pipe: now.pipe,
          collar_to_shoe_m: length,
          penetration_m: inGround,
          plug_m: now.last?.plug_m ?? null,
          extra_kg: 0,
          reeving: { parts: 1, sheaves: 0, bearing: 'roller' },
          rated: [],
        });
  const hook =
    estimate === null
      ? null
      : `${kn(estimate.still.hook_kn.low)} to ${kn(estimate.still.hook_kn.high)} kN on the hook, not vibrated`;
  const say = 'Nobody under the load.';
  if (load !== null) {
    return {
      ...known(
        'Line load, last read',
        load.toFixed(1),
        'kN',
        null,
        hook ?? 'no estimate: the pipe is not described',
      ),
      say,
    };
  }
  if (estimate === null)
    return { ...unknown('Line load', 'kN', 'no estimate: the pipe is not described'), say };
  const { low, high } = estimate.still.hook_kn;
  return {
    ...known(
      'Pull on the hook',
      `${kn(low)}–${kn(high)}`,
      'kN',
      null,
      `string ${kn(estimate.weight_water_kn)} in water, friction ${kn(estimate.friction_kn.low)} to ${kn(estimate.friction_kn.high)}`,
    ),
    say,
  };
}

const kn = (x: number): string => (x < 10 ? x.toFixed(1) : x.toFixed(0));

/** Line loads of this hole as read while pulling. */
function loads(now: HoleNow): number[] {
  return now.campaign.rows.joints
    .filter((j) => j.hole === now.row.hole && j.line_load_kn !== null)
    .map((j) => j.line_load_kn!);
}

function waterHead(now: HoleNow): BigNumber {
  const name = 'Water head';
  const { inside_m, outside_m, head_m } = now.water;
  if (now.string.length === 0) return pipeLeft(now);
  if (head_m === null || inside_m === null || outside_m === null) {
    return unknown(
      name,
      'm',
      inside_m === null ? 'read the water inside and outside' : 'read the water outside',
    );
  }
  const stickUp = now.last?.stick_up_m ?? null;
  const sigma = Math.SQRT2 * now.settings.sounding_sigma_m;
  const sum =
    stickUp === null
      ? `outside ${m2(outside_m)} − inside ${m2(inside_m)}, below the reference`
      : `outside ${m2(outside_m)} + stick-up ${m2(stickUp)} − inside ${m2(inside_m + stickUp)}`;
  const base = { ...known(name, signed2(head_m), 'm', spread2(sigma), sum), crew: inFeet(head_m, now) };
  if (head_m < -0.005) {
    // with the worst case of the plug, until somebody knows better
    const { verdict } = exitGradient(head_m, now.last?.plug_m ?? 0);
    return verdict === 'boils'
      ? { ...base, level: 'danger', word: 'Boils', say: 'Fill the string now. Lift nothing.' }
      : { ...base, level: 'caution', word: 'Turned', say: 'Fill the string before anything is lifted.' };
  }
  if (head_m < 0.1)
    return { ...base, level: 'caution', word: 'Low', say: 'Keep the string full: sand boils in.' };
  return { ...base, say: 'Inside stands above outside.' };
}

/** With the string out, what is at risk is what stayed: nothing, it is to be hoped. */
function pipeLeft(now: HoleNow): BigNumber {
  const added = now.fold.account.length;
  if (added === 0) return unknown('Water head', 'm', 'no string in the hole');
  const left = now.fold.account.filter((i) => i.fate === 'left' || i.fate === 'lost' || i.fate === 'missing');
  const length = left.reduce((sum, i) => sum + i.in_ground_m, 0);
  const names = left.map((i) => i.label ?? i.item.replace('_', ' ')).join(', ');
  return {
    ...known(
      'Pipe in the ground',
      m2(length),
      'm',
      null,
      left.length === 0 ? `all ${added} items accounted for` : `left: ${names}`,
    ),
    say: left.length === 0 ? 'Every item is back.' : 'Named for the permit.',
  };
}

const inFeet = (m: number, now: HoleNow): string | null => (now.unit === 'ft' ? saidLength(m, 'ft') : null);

export const fourNumbers = (now: HoleNow): [BigNumber, BigNumber, BigNumber, BigNumber] => [
  shoeDepth(now),
  plugLength(now),
  lastRecovery(now),
  atRisk(now),
];
