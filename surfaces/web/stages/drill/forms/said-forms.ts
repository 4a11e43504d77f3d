/** What the crew says of water and plug, so that no advice rests on what is assumed. Its fields are settings by name. */

import type { HoleState } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { CRITICAL_GRADIENTS } from '@stillstand/science/rig';
import { t } from '../../../language/index.ts';
import { type Base, choice, type EntryForm } from './field.ts';

export function watersForm(base: Base, now: HoleState): EntryForm {
  const kinds = schemas.water_added.columns.kind.choices;
  return {
    ...base,
    title: t`Water and plug`,
    verb: t`Use these values`,
    caution: t`Not sure: leave sea water outside and an organic plug, the worst case.`,
    table: null,
    fields: [
      choice(
        'water_outside',
        t`Water outside`,
        kinds,
        t`Water around the string: the sea, or a fresh water table. For the whole campaign.`,
        now.settings.water_outside,
      ),
      choice(
        'water_inside',
        t`Water inside`,
        kinds,
        t`What the string was filled with. Fresh water weighs 2.5 % less than sea water.`,
        now.water.kind ?? '',
      ),
      choice(
        'plug_kind',
        t`The plug is`,
        Object.keys(CRITICAL_GRADIENTS),
        t`Sediment above the shoe: sand bears ten times the upward flow that peat or mud does. For the whole campaign.`,
        now.settings.plug_kind,
      ),
    ],
  };
}
