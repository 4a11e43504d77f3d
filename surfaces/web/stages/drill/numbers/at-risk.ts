/**
 * The fourth number, what is next at risk: the clearance while a sampler is in the string, the load while the string is
 * drawn, else the water; with the string out, what stayed in the ground.
 */

import { type HoleState, type PullLoads, pullLoads } from '@stillstand/campaign/holes';
import {
  loadWords,
  massWords,
  type Range,
  rangeMassWords,
  rangeWords,
  ratingWords,
} from '@stillstand/science/rig';
import { t, translated } from '../../../language/index.ts';
import { drawing } from '../next/string-now.ts';
import { m2, m2Most } from '../tape/lengths.ts';
import {
  aged,
  type BigNumber,
  inFeet,
  known,
  lastRead,
  type Moment,
  spread2,
  unknown,
} from './big-number.ts';
import { waterHead } from './water-head.ts';

/** What is next at risk; `pulling`: the string is about to be pulled. */
export function atRisk(now: HoleState, moment: Moment, pulling = false): BigNumber {
  if (now.run !== null) return aged(clearance(now, moment), moment.ages.cable);
  if (!now.ended && (pulling || drawing(now)) && now.string.length > 0) return linePull(now);
  return waterHead(now, moment);
}

function clearance(now: HoleState, { ages, day }: Moment): BigNumber {
  const name = t`Clearance`;
  if (ages.cable?.weight === 'not read' && now.tip_m !== null)
    return {
      ...unknown(name, 'm', lastRead(t`tip ${m2(now.tip_m)} m`, ages.cable, day)),
      level: 'caution',
      word: t`Sampler in string`,
      say: t`Lift the sampler before anything else.`,
    };
  const run = now.run!;
  const length = now.fold.collar_to_shoe_m;
  const c = now.clearance;
  if (c === null || length === null)
    return unknown(name, 'm', length === null ? t`the length of a joint is missing` : t`read the cable`);
  const tip = run.end_mark_m ?? run.start_mark_m ?? 0;
  const base: BigNumber = {
    ...known(
      name,
      m2Most(c.clearance_m),
      'm',
      spread2(c.sigma_m),
      t`shoe ${m2Most(length)} − tip ${m2(tip)}, from the collar`,
    ),
    crew: inFeet(c.clearance_m, now, 'at most'),
  };
  const left = c.clearance_m - c.margin_m;
  switch (c.verdict) {
    case 'clear':
      return { ...base, say: t`${m2Most(left)} m to the stop mark` };
    case 'near stop':
      return { ...base, level: 'caution', word: t`Near stop`, say: t`${m2Most(left)} m to the stop mark` };
    case 'stop':
      return { ...base, level: 'danger', word: t`Stop`, say: t`No deeper. Lift the sampler.` };
    case 'past shoe':
      return {
        ...base,
        level: 'danger',
        word: t`Stop`,
        say: t`Past the shoe. Lift the sampler now, slowly.`,
      };
  }
}

/** What the line may have to carry, against what is marked on each part of the gear; always with its caution. */
function linePull(now: HoleState): BigNumber {
  const pull = pullLoads(now);
  const base = { ...loadSum(pull), basis: { form: 'gear' as const, of: pull.basis } };
  const worst = pull.against[0];
  if (worst === undefined && pull.unusable.length > 0)
    return {
      ...base,
      level: 'caution',
      word: t`Not usable`,
      say: t`${translated(pull.unusable[0] ?? '')}: no load is computed.`,
    };
  if (worst === undefined) {
    const unread = pull.parts.some(({ rated_kn }) => rated_kn === null);
    const within = unread ? t`Within the ratings that were read.` : t`Within rated loads.`;
    return { ...base, say: pull.weakest === null ? t`Nobody under the load.` : within };
  }
  const mark = t`the ${translated(worst.part)}’s ${ratingWords(worst.rated_kn)}`;
  if (worst.by === 'reading')
    return { ...base, level: 'danger', word: t`Stop`, say: t`Reduce pull now: load exceeds ${mark}.` };
  return worst.verdict === 'exceeds'
    ? { ...base, level: 'danger', word: t`Over`, say: t`Even the lowest estimate exceeds ${mark}.` }
    : { ...base, level: 'caution', word: t`Could exceed`, say: t`The highest estimate exceeds ${mark}.` };
}

function loadSum({ estimate, read, reeving, unusable }: PullLoads): BigNumber {
  const hook =
    estimate === null
      ? t`no estimate: ${unusable.length > 0 ? t`correct the gear` : t`pipe size missing`}`
      : t`hook ${both(estimate.still.hook_kn)}, not vibrated`;
  if (read !== null)
    return known(
      t`Line load, last read`,
      loadWords(read.line_kn),
      'kN',
      null,
      `${massWords(read.line_kn)}; ${estimate === null ? '' : t`by estimate `}${hook}`,
    );
  if (estimate === null) return unknown(t`Line pull`, 'kN', hook);
  const on = reeving.parts === 1 && reeving.sheaves === 0 ? t`Hook load` : t`Line pull`;
  const { fast_line_kn } = estimate.still;
  return known(on, rangeWords(fast_line_kn), 'kN', null, `${rangeMassWords(fast_line_kn)}; ${hook}`);
}

const both = (load: Range): string => t`${rangeWords(load)} kN (${rangeMassWords(load)})`;
