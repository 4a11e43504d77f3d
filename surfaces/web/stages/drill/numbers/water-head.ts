/** The water inside against the water outside, weighed, as they were last read; with the string out, what stayed in the ground. */

import { type HoleState, weighedHead } from '@stillstand/campaign/holes';
import { t, translated } from '../../../language/index.ts';
import { m2, m2Least, m2Most, signed } from '../tape/lengths.ts';
import {
  aged,
  type BigNumber,
  empty,
  inFeet,
  known,
  lastRead,
  type Moment,
  spread2,
  unknown,
  whenWords,
} from './big-number.ts';

/** Pressure on the sediment as metres of the water outside: the levels, weighed. */
export function waterHead(now: HoleState, { ages, day, rise_m }: Moment): BigNumber {
  const name = t`Water head`;
  const { inside, outside, inside_m, outside_m } = now.water;
  if (now.string.length === 0 || now.ended) return pipeLeft(now);
  const age = ages.head;
  if (age?.weight === 'not read' && inside !== null && outside !== null) {
    const level = outside.below_reference_m - inside.below_reference_m;
    return unknown(name, 'm', lastRead(`${signed(m2Most(level))} m`, age, day));
  }
  const water = weighedHead(now);
  if (water === null || inside_m === null || outside_m === null) {
    return unknown(
      name,
      'm',
      now.fold.collar_to_shoe_m === null
        ? t`the length of a joint is missing`
        : inside_m === null
          ? t`read the water inside and outside`
          : t`read the water outside`,
    );
  }
  const { head_m, level_m, columns, exit } = water;
  const sigma = Math.SQRT2 * now.settings.sounding_sigma_m;
  const stickUp = columns.to_water_inside_m - inside_m;
  const weighs = head_m - level_m;
  const levels = t`outside ${m2(outside_m)} + stick-up ${m2(stickUp)} − inside ${m2(columns.to_water_inside_m)}`;
  const sum =
    Math.abs(weighs) < 0.005
      ? levels
      : t`levels ${signed(m2Most(level_m))} ${weighs < 0 ? `− ${m2Least(-weighs)}` : `+ ${m2Most(weighs)}`} for ${translated(columns.inside)} water inside`;
  const tide = age === null || age.weight === 'fresh' || rise_m === null ? null : rise_m;
  const base = aged(
    {
      ...known(name, signed(m2Most(head_m)), 'm', spread2(sigma), sum),
      crew: inFeet(head_m, now, 'at most'),
      basis: { form: 'waters' as const, of: water.basis },
    },
    age,
  );
  if (head_m < -0.005) {
    const fill =
      level_m < -0.005 ? t`Fill the string before anything is lifted.` : t`Fill higher, or with sea water.`;
    return exit.verdict === 'boils'
      ? { ...base, level: 'danger', word: t`Boils`, say: t`Fill the string now. Lift nothing.` }
      : { ...base, level: 'caution', word: t`Head reversed`, say: fill };
  }
  // by the tide alone, since the water outside was read
  if (tide !== null && head_m - tide < 0.1)
    return {
      ...base,
      level: 'caution',
      word: t`Tide rising`,
      say: t`Outside has risen about ${m2Least(tide)} m: read the water.`,
    };
  if (head_m < 0.1)
    return { ...base, level: 'caution', word: t`Low`, say: t`Keep the string full, or sand boils in.` };
  if (age !== null && age.weight === 'old') {
    const moved =
      tide === null ? '' : tide < 0 ? t`; outside fell ${m2(-tide)} m` : t`; outside rose ${m2(tide)} m`;
    return { ...base, say: t`Read ${whenWords(age, day)}${moved}` };
  }
  return { ...base, say: t`Stable: head inside exceeds outside.` };
}

/** With the string out, what is at risk is what stayed in the ground, made up as it lies there. */
function pipeLeft(now: HoleState): BigNumber {
  const added = now.fold.account.length;
  if (added === 0) return empty(t`Water head`, t`no string in the hole`);
  const left = now.fold.account.filter((i) => i.fate === 'left' || i.fate === 'lost' || i.fate === 'missing');
  const length = left.reduce((sum, i) => sum + i.in_ground_m, 0);
  const names = left.map((i) => i.label ?? translated(i.item.replace('_', ' '))).join(', ');
  return {
    ...known(
      t`Pipe in the ground`,
      m2Least(length),
      'm',
      null,
      left.length === 0 ? t`all ${added} items accounted for` : t`left: ${names}`,
    ),
    say: left.length === 0 ? t`Every item is back.` : t`Named for the permit.`,
  };
}
