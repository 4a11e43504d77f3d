/**
 * The four numbers that matter, each with its ± (2 sd) and the sum that made it. A number nobody can know yet is a dash
 * and says what to read. The fourth is what is next at risk: the clearance while a sampler is in the string, the load
 * while the string is drawn, else the water. Past 250 lines because each of the seven numbers has its own sum.
 */

import {
  type Basis,
  type HoleState,
  type PullLoads,
  pullLoads,
  weighedHead,
} from '@stillstand/campaign/holes';
import { atLeast, type Side } from '@stillstand/science/base';
import { drawing } from '../next/next-action.ts';
import { m2, m2Least, m2Most, saidLength, signed } from '../tape/lengths.ts';

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
  /** What it rests on that was not measured, and the form that says otherwise. */
  basis: { form: 'waters' | 'gear'; of: readonly Basis[] } | null;
}

export const unknown = (name: string, unit: string, sum: string): BigNumber => ({
  name,
  value: null,
  unit,
  spread: null,
  sum,
  level: 'normal',
  word: '',
  say: '',
  crew: null,
  basis: null,
});

export const known = (
  name: string,
  value: string,
  unit: string,
  spread: string | null,
  sum: string,
): BigNumber => ({
  ...unknown(name, unit, sum),
  value,
  spread,
});

/** 1 sigma of collar to shoe: joints err independently. */
const stringSigma = (now: HoleState): number => Math.sqrt(now.fold.joints_in) * now.settings.joint_sigma_m;

const spread2 = (sigma: number): string => m2Least(Math.max(0.01, 2 * sigma));

export function shoeDepth(now: HoleState): BigNumber {
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

export function plugLength(now: HoleState): BigNumber {
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
      `${m2(now.last?.removed_m ?? 0)} m removed by ${runs} ${runs === 1 ? 'run' : 'runs'}`,
    );
  }
  if (length === null) return unknown(name, 'm', 'the length of a joint is missing');
  const sounded = now.sediment.sounded_m;
  if (sounded !== null && length - sounded > -0.05) {
    const sounding = now.readings.findLast((r) => r.kind === 'sounding' && r.to_sediment_m !== null);
    const own = sounding?.kind === 'sounding' ? sounding.sigma_m : null;
    const sigma = Math.hypot(stringSigma(now), own ?? now.settings.sounding_sigma_m);
    const plug = Math.max(0, length - sounded);
    return {
      ...known(name, m2Most(plug), 'm', spread2(sigma), `string ${m2Most(length)} − sounding ${m2(sounded)}`),
      crew: inFeet(plug, now, 'at most'),
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
        m2Most(last.plug_m),
        'm',
        spread2(run.removed_sigma_m),
        `${m2(last.plug_m + run.removed_m)} − ${m2(run.removed_m)} removed by ${run.run}`,
      ),
      crew: inFeet(last.plug_m, now, 'at most'),
    };
  }
  if (last?.plug_m != null && now.fold.drives.length === 0)
    return known(name, m2Most(last.plug_m), 'm', null, 'not driven yet');
  if (last?.plug_m != null && now.readings.at(-1)?.kind === 'joint')
    return {
      ...known(
        name,
        m2Most(last.plug_m),
        'm',
        spread2(now.settings.sounding_sigma_m),
        drawing(now) ? 'as last sounded, before it was pulled' : 'as sounded before the joint was added',
      ),
      crew: inFeet(last.plug_m, now, 'at most'),
    };
  return unknown(name, 'm', 'take a sounding');
}

export function lastRecovery(now: HoleState): BigNumber {
  const name = 'Recovery, last drive';
  const drive = now.fold.drives.at(-1);
  const total = now.last?.recovery ?? null;
  const all = total === null ? '' : `all drives ${(total * 100).toFixed(0)} %`;
  if (drive === undefined) return unknown(name, '%', 'not driven yet');
  if (drive.recovery === null || drive.entered_m === null) {
    return unknown(name, '%', all === '' ? 'take a sounding' : `take a sounding; ${all}`);
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

/** What is next at risk; `pulling`: the string is about to be pulled. */
export function atRisk(now: HoleState, pulling = false): BigNumber {
  if (now.run !== null) return clearance(now);
  if ((pulling || drawing(now)) && now.string.length > 0) return linePull(now);
  return waterHead(now);
}

function clearance(now: HoleState): BigNumber {
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
      m2Most(c.clearance_m),
      'm',
      spread2(c.sigma_m),
      `shoe ${m2Most(length)} − tip ${m2(tip)}, from the collar`,
    ),
    crew: inFeet(c.clearance_m, now, 'at most'),
  };
  const left = c.clearance_m - c.margin_m;
  switch (c.verdict) {
    case 'clear':
      return { ...base, say: `${m2Most(left)} m to the stop mark` };
    case 'near stop':
      return { ...base, level: 'caution', word: 'Near stop', say: `${m2Most(left)} m to the stop mark` };
    case 'stop':
      return { ...base, level: 'danger', word: 'Stop', say: 'No deeper. Lift the sampler.' };
    case 'past shoe':
      return { ...base, level: 'danger', word: 'Stop', say: 'Past the shoe. Lift the sampler now, slowly.' };
  }
}

/** What the line may have to carry, against what is marked on the gear; always with its caution. */
function linePull(now: HoleState): BigNumber {
  const pull = pullLoads(now);
  const base = { ...loadSum(pull), basis: { form: 'gear' as const, of: pull.basis } };
  const worst = pull.against[0];
  if (worst === undefined) {
    const say =
      base.value !== null && pull.rated.length > 0 ? 'Within rated loads.' : 'Nobody under the load.';
    return { ...base, say };
  }
  const mark = `the ${worst.part}’s ${worst.rated_kn} kN`;
  if (worst.by === 'reading')
    return { ...base, level: 'danger', word: 'Stop', say: `Reduce pull now: load exceeds ${mark}.` };
  return worst.verdict === 'exceeds'
    ? { ...base, level: 'danger', word: 'Over', say: `Even the lowest estimate exceeds ${mark}.` }
    : { ...base, level: 'caution', word: 'May exceed', say: `The highest estimate exceeds ${mark}.` };
}

function loadSum({ estimate, read, reeving }: PullLoads): BigNumber {
  const hook =
    estimate === null
      ? 'no estimate: pipe size missing'
      : `hook ${range(estimate.still.hook_kn)}, friction ${range(estimate.friction_kn)}, not vibrated`;
  if (read !== null)
    return known('Line load, last read', loadWords(read.line_kn), 'kN', null, `by estimate ${hook}`);
  if (estimate === null) return unknown('Line pull', 'kN', hook);
  const on = reeving.parts === 1 && reeving.sheaves === 0 ? 'Hook load' : 'Line pull';
  return known(on, range(estimate.still.fast_line_kn), 'kN', null, hook);
}

/** A load is never shown smaller than it is. */
const loadWords = (kn: number): string => (kn < 10 ? atLeast(kn, 1).toFixed(1) : atLeast(kn, 0).toFixed(0));
const range = ({ low, high }: { low: number; high: number }): string =>
  high < 0.1 ? 'under 0.1' : `${loadWords(low)}–${loadWords(high)}`;

/** Pressure on the sediment as metres of the water outside: the levels, weighed. */
function waterHead(now: HoleState): BigNumber {
  const name = 'Water head';
  const { inside_m, outside_m } = now.water;
  if (now.string.length === 0) return pipeLeft(now);
  const water = weighedHead(now);
  if (water === null || inside_m === null || outside_m === null) {
    return unknown(
      name,
      'm',
      now.fold.collar_to_shoe_m === null
        ? 'the length of a joint is missing'
        : inside_m === null
          ? 'read the water inside and outside'
          : 'read the water outside',
    );
  }
  const { head_m, level_m, columns, exit } = water;
  const sigma = Math.SQRT2 * now.settings.sounding_sigma_m;
  const stickUp = columns.to_water_inside_m - inside_m;
  const weighs = head_m - level_m;
  const levels = `outside ${m2(outside_m)} + stick-up ${m2(stickUp)} − inside ${m2(columns.to_water_inside_m)}`;
  const sum =
    Math.abs(weighs) < 0.005
      ? levels
      : `levels ${signed(m2Most(level_m))} ${weighs < 0 ? `− ${m2Least(-weighs)}` : `+ ${m2Most(weighs)}`} for ${columns.inside} water inside`;
  const base = {
    ...known(name, signed(m2Most(head_m)), 'm', spread2(sigma), sum),
    crew: inFeet(head_m, now, 'at most'),
    basis: { form: 'waters' as const, of: water.basis },
  };
  if (head_m < -0.005) {
    const fill =
      level_m < -0.005 ? 'Fill the string before anything is lifted.' : 'Fill higher, or with sea water.';
    return exit.verdict === 'boils'
      ? { ...base, level: 'danger', word: 'Boils', say: 'Fill the string now. Lift nothing.' }
      : { ...base, level: 'caution', word: 'Head reversed', say: fill };
  }
  if (head_m < 0.1)
    return { ...base, level: 'caution', word: 'Low', say: 'Keep the string full, or sand boils in.' };
  return { ...base, say: 'Stable: head inside exceeds outside.' };
}

/** With the string out, what is at risk is what stayed in the ground, made up as it lies there. */
function pipeLeft(now: HoleState): BigNumber {
  const added = now.fold.account.length;
  if (added === 0) return unknown('Water head', 'm', 'no string in the hole');
  const left = now.fold.account.filter((i) => i.fate === 'left' || i.fate === 'lost' || i.fate === 'missing');
  const length = left.reduce((sum, i) => sum + i.in_ground_m, 0);
  const names = left.map((i) => i.label ?? i.item.replace('_', ' ')).join(', ');
  return {
    ...known(
      'Pipe in the ground',
      m2Least(length),
      'm',
      null,
      left.length === 0 ? `all ${added} items accounted for` : `left: ${names}`,
    ),
    say: left.length === 0 ? 'Every item is back.' : 'Named for the permit.',
  };
}

const inFeet = (m: number, now: HoleState, side: Side = 'nearest'): string | null =>
  now.units.tape === 'ft' ? saidLength(m, 'ft', side) : null;

export const fourNumbers = (
  now: HoleState,
  pulling = false,
): [BigNumber, BigNumber, BigNumber, BigNumber] => [
  shoeDepth(now),
  plugLength(now),
  lastRecovery(now),
  atRisk(now, pulling),
];
