/** The four numbers that matter: where the shoe is, the plug, what entered, and what is next at risk (at-risk.ts). */

import type { HoleState } from '@stillstand/campaign/holes';
import { isSounded } from '@stillstand/science/rig';
import { t } from '../../../language/index.ts';
import { drawing } from '../next/string-now.ts';
import { m2, m2Most } from '../tape/lengths.ts';
import { atRisk } from './at-risk.ts';
import {
  aged,
  type BigNumber,
  empty,
  inFeet,
  known,
  lastRead,
  type Moment,
  spread2,
  stringSigma,
  summed,
  unknown,
} from './big-number.ts';
import { penetrationRate, rateWithShoe } from './penetration-rate.ts';
import { recovery } from './recovery.ts';
import { waterHead } from './water-head.ts';

export function shoeDepth(now: HoleState, { ages }: Moment): BigNumber {
  const name = t`Shoe depth`;
  const length = now.fold.collar_to_shoe_m;
  const last = now.last;
  if (now.string.length === 0 || now.ended) {
    const deepest = now.fold.deepest_m;
    if (deepest === null) return empty(name, t`no string in the hole`);
    return {
      ...known(t`Deepest shoe`, m2(deepest), 'm', null, t`the farthest it was driven`),
      crew: inFeet(deepest, now),
    };
  }
  if (length === null) return unknown(name, 'm', t`the length of a joint is missing`);
  if (last?.penetration_now_m == null || last.stick_up_m === null)
    return unknown(name, 'm', drawing(now) ? t`the string is coming out` : t`read the stick-up`);
  const ground = now.ground_m ?? 0;
  const sigma = Math.hypot(stringSigma(now), now.settings.stick_up_sigma_m);
  const depth = m2(last.penetration_now_m);
  const of = summed([length, -last.stick_up_m, -ground], depth);
  const less = ground === 0 ? '' : ground > 0 ? t` − ground ${of(ground)}` : t` + ground ${of(-ground)}`;
  const shoe = {
    ...known(
      name,
      depth,
      'm',
      spread2(sigma),
      t`string ${of(length)} − stick-up ${of(last.stick_up_m)}${less}`,
    ),
    crew: inFeet(last.penetration_now_m, now),
    also: rateWithShoe(now),
  };
  return aged(shoe, ages.stick_up);
}

export function plugLength(now: HoleState, { ages, day }: Moment): BigNumber {
  const name = t`Plug length`;
  const age = ages.sediment;
  const plug = plugNow(now);
  if (age === null || now.string.length === 0 || now.ended) return plug;
  if (age.moved_by === null && age.weight === 'not read' && plug.value !== null)
    return unknown(name, 'm', lastRead(`${plug.value} m`, age, day));
  if (plug.value !== null) return aged(plug, age);
  const before = now.fold.states.findLast((s) => s.plug_m !== null)?.plug_m ?? null;
  return age.moved_by === null || before === null
    ? plug
    : unknown(name, 'm', lastRead(`${m2Most(before)} m`, age, day));
}

/** As last sounded, or as a run left it; not known after a drive. */
function plugNow(now: HoleState): BigNumber {
  const name = t`Plug length`;
  const length = now.fold.collar_to_shoe_m;
  if (now.string.length === 0 || now.ended) {
    const entered = now.fold.entered_m;
    if (entered === null || now.fold.drives.length === 0) return empty(name, t`no string in the hole`);
    const runs = now.fold.runs.length;
    return known(
      t`Entered in all`,
      m2(entered),
      'm',
      null,
      t`${m2(now.last?.removed_m ?? 0)} m removed by ${runs} ${runs === 1 ? t`run` : t`runs`}`,
    );
  }
  if (length === null) return unknown(name, 'm', t`the length of a joint is missing`);
  const sounded = now.sediment.sounded_m;
  if (sounded !== null && length - sounded > -0.05) {
    const sounding = now.readings.findLast(isSounded);
    const own = sounding?.sigma_m ?? null;
    const sigma = Math.hypot(stringSigma(now), own ?? now.settings.sounding_sigma_m);
    const plug = Math.max(0, length - sounded);
    const of = summed([length, -sounded], m2Most(plug));
    return {
      ...known(name, m2Most(plug), 'm', spread2(sigma), t`string ${of(length)} − sounding ${of(sounded)}`),
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
        t`${m2(last.plug_m + run.removed_m)} − ${m2(run.removed_m)} removed by ${run.run}`,
      ),
      crew: inFeet(last.plug_m, now, 'at most'),
    };
  }
  if (last?.plug_m != null && now.fold.drives.length === 0)
    return known(name, m2Most(last.plug_m), 'm', null, t`not driven yet`);
  if (last?.plug_m != null && now.readings.at(-1)?.kind === 'joint')
    return {
      ...known(
        name,
        m2Most(last.plug_m),
        'm',
        spread2(now.settings.sounding_sigma_m),
        drawing(now) ? t`as last sounded, before it was pulled` : t`as sounded before the joint was added`,
      ),
      crew: inFeet(last.plug_m, now, 'at most'),
    };
  return unknown(name, 'm', t`take a sounding`);
}

/**
 * The four numbers; `pulling`: the string is about to be pulled. While the last drive is slow its rate is what is at risk,
 * and the water takes the place of the recovery.
 */
export function fourNumbers(
  now: HoleState,
  moment: Moment,
  pulling = false,
): [BigNumber, BigNumber, BigNumber, BigNumber] {
  const slow = pulling || now.run !== null ? null : penetrationRate(now);
  if (slow !== null)
    return [{ ...shoeDepth(now, moment), also: null }, waterHead(now, moment), plugLength(now, moment), slow];
  return [shoeDepth(now, moment), plugLength(now, moment), recovery(now), atRisk(now, moment, pulling)];
}
