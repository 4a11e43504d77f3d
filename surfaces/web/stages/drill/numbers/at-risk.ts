/**
 * The fourth number, what is next at risk: the clearance while a sampler is in the string, the load while the string is
 * drawn, else the water; with the string out, what stayed in the ground.
 */
import { type HoleState, type PullLoads, pullLoads, weighedHead } from '@stillstand/campaign/holes';
import {
  loadWords,
  massWords,
  type Range,
  rangeMassWords,
  rangeWords,
  ratingWords,
} from '@stillstand/science/rig';
import { drawing } from '../next/string-now.ts';
import { m2, m2Least, m2Most, signed } from '../tape/lengths.ts';
import { type BigNumber, inFeet, known, spread2, unknown } from './big-number.ts';

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

/** What the line may have to carry, against what is marked on each part of the gear; always with its caution. */
function linePull(now: HoleState): BigNumber {
  const pull = pullLoads(now);
  const base = { ...loadSum(pull), basis: { form: 'gear' as const, of: pull.basis } };
  const worst = pull.against[0];
  if (worst === undefined) {
    const unread = pull.parts.some(({ rated_kn }) => rated_kn === null);
    const within = unread ? 'Within the ratings that were read.' : 'Within rated loads.';
    return { ...base, say: pull.weakest === null ? 'Nobody under the load.' : within };
  }
  const mark = `the ${worst.part}’s ${ratingWords(worst.rated_kn)}`;
  if (worst.by === 'reading')
    return { ...base, level: 'danger', word: 'Stop', say: `Reduce pull now: load exceeds ${mark}.` };
  return worst.verdict === 'exceeds'
    ? { ...base, level: 'danger', word: 'Over', say: `Even the lowest estimate exceeds ${mark}.` }
    : { ...base, level: 'caution', word: 'Could exceed', say: `The highest estimate exceeds ${mark}.` };
}

function loadSum({ estimate, read, reeving }: PullLoads): BigNumber {
  const hook =
    estimate === null
      ? 'no estimate: pipe size missing'
      : `hook ${both(estimate.still.hook_kn)}, friction ${both(estimate.friction_kn)}, not vibrated`;
  if (read !== null)
    return known(
      'Line load, last read',
      loadWords(read.line_kn),
      'kN',
      null,
      `${massWords(read.line_kn)}; by estimate ${hook}`,
    );
  if (estimate === null) return unknown('Line pull', 'kN', hook);
  const on = reeving.parts === 1 && reeving.sheaves === 0 ? 'Hook load' : 'Line pull';
  const { fast_line_kn } = estimate.still;
  return known(on, rangeWords(fast_line_kn), 'kN', null, `${rangeMassWords(fast_line_kn)}; ${hook}`);
}

const both = (load: Range): string => `${rangeWords(load)} kN (${rangeMassWords(load)})`;

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
