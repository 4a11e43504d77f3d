/** What the crew says of water, plug and gear, so that no advice rests on what is assumed. Its fields are settings by name. */
import type { HoleState } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { CRITICAL_GRADIENTS } from '@stillstand/science/rig';
import { type Base, choice, type EntryForm, number } from './field.ts';

export function watersForm(base: Base, now: HoleState): EntryForm {
  const kinds = schemas.water_added.columns.kind.choices;
  return {
    ...base,
    title: 'Water and plug',
    verb: 'Use these values',
    caution: 'Not sure: leave sea water outside and an organic plug, the worst case.',
    table: null,
    fields: [
      choice(
        'water_outside',
        'Water outside',
        kinds,
        'Water around the string: the sea, or a fresh water table. For the whole campaign.',
        now.settings.water_outside,
      ),
      choice(
        'water_inside',
        'Water inside',
        kinds,
        'What the string was filled with. Fresh water weighs 2.5 % less than sea water.',
        now.water.kind ?? '',
      ),
      choice(
        'plug_kind',
        'The plug is',
        Object.keys(CRITICAL_GRADIENTS),
        'Sediment above the shoe: sand bears ten times the upward flow that peat or mud does. For the whole campaign.',
        now.settings.plug_kind,
      ),
    ],
  };
}

/** Fields of the gear are settings by their own names. */
export function gearForm(base: Base, now: HoleState): EntryForm {
  const { pulling, given } = now;
  const said = (name: string, value: number | null) =>
    given.has(name) && value !== null ? { initial: String(value) } : {};
  const load = (name: string, label: string, help: string, value: number | null) =>
    number(
      name,
      label,
      'kN',
      `${help} 1 t is 9.8 kN. A competent person checks it; makers’ manuals and local codes take precedence.`,
      said(name, value),
    );
  return {
    ...base,
    title: 'Pulling gear',
    verb: 'Use these values',
    caution: 'Read the ratings on the gear itself. Do not exceed any load rating marked on the gear.',
    table: null,
    fields: [
      number(
        'line_parts',
        'Parts of line',
        '',
        'Lines that carry the block: 1 where the winch line goes straight to the string.',
        {
          whole: true,
          initial: String(pulling.parts),
        },
      ),
      load('rated_line_kn', 'Rated load: line', 'The least of rope and winch.', pulling.rated_line_kn),
      load(
        'rated_hook_kn',
        'Rated load: hook',
        'The least of hook, shackle and clamp.',
        pulling.rated_hook_kn,
      ),
      load('rated_head_kn', 'Rated load: tripod', 'Tripod, derrick or anchor.', pulling.rated_head_kn),
      number(
        'hanging_kg',
        'Suspended gear',
        'kg',
        'Drive head, vibrator and block that hang on the hook with the string.',
        said('hanging_kg', pulling.hanging_kg),
      ),
      number('line_sheaves', 'Sheaves', '', 'That the line rolls over; blank for as many as parts.', {
        whole: true,
        ...said('line_sheaves', pulling.sheaves),
      }),
      choice(
        'line_bearing',
        'Sheave bearings',
        ['plain', 'roller'],
        'Plain ones take more of the pull.',
        pulling.bearing,
      ),
    ],
  };
}
