/** The four numbers that matter: the first three are sums of the string and its soundings, the last is at-risk.ts. */
import type { HoleState } from '@stillstand/campaign/holes';
import { drawing } from '../next/string-now.ts';
import { m2, m2Most } from '../tape/lengths.ts';
import { atRisk } from './at-risk.ts';
import { type BigNumber, inFeet, known, spread2, stringSigma, unknown } from './big-number.ts';

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

export const fourNumbers = (
  now: HoleState,
  pulling = false,
): [BigNumber, BigNumber, BigNumber, BigNumber] => [
  shoeDepth(now),
  plugLength(now),
  lastRecovery(now),
  atRisk(now, pulling),
];
