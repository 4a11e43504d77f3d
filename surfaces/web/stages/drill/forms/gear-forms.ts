/** What pulls the string, and what is marked on each part of it. Fields of the gear are settings by their own names. */

import { type HoleState, USUAL_PARTS } from '@stillstand/campaign/holes';
import { type GearNumber, gearFault } from '@stillstand/campaign/settings';
import { t } from '../../../language/index.ts';
import { type Base, choice, type EntryForm, number, text, words } from './field.ts';

const DEFERS = t`A competent person checks it; makers’ manuals and local codes take precedence.`;

export function gearForm(base: Base, now: HoleState): EntryForm {
  const { pulling } = now;
  /** As it was typed, also where it cannot be used. */
  const typed = (name: GearNumber): string =>
    now.campaign.rows.settings.find((s) => s.name === name)?.value.trim() ?? '';
  const said = (name: GearNumber, usual = '') => {
    const initial = typed(name) || usual;
    return {
      ...(initial === '' ? {} : { initial }),
      doubt: (value: string) => withoutLoad(gearFault(name, value)),
    };
  };
  /** Ratings that an older campaign has for several parts together: still shown, to be corrected or emptied. */
  const together = (name: GearNumber, label: string, help: string) =>
    typed(name) === '' ? [] : [number(name, label, 'kN', t`${help} 1 t is 9.8 kN. ${DEFERS}`, said(name))];
  return {
    ...base,
    title: t`Pulling gear`,
    verb: t`Use these values`,
    caution: t`Read the ratings on the gear itself. Do not exceed any load rating marked on the gear.`,
    table: null,
    fields: [
      number(
        'line_parts',
        t`Parts of line`,
        '',
        t`Lines that carry the block: 1 where the winch line goes straight to the string.`,
        { whole: true, ...said('line_parts', '1') },
      ),
      number(
        'hanging_kg',
        t`Suspended gear`,
        'kg',
        t`Drive head, vibrator and block that hang on the hook with the string.`,
        said('hanging_kg'),
      ),
      number('line_sheaves', t`Sheaves`, '', t`That the line rolls over; blank for as many as parts.`, {
        whole: true,
        ...said('line_sheaves'),
      }),
      choice(
        'line_bearing',
        t`Sheave bearings`,
        ['plain', 'roller'],
        t`Plain ones take more of the pull.`,
        pulling.bearing,
      ),
      ...together('rated_line_kn', t`Rated load: line`, t`The least of rope and winch.`),
      ...together('rated_hook_kn', t`Rated load: hook`, t`The least of hook, shackle and clamp.`),
      ...together('rated_head_kn', t`Rated load: tripod`, t`Tripod, derrick or anchor.`),
    ],
  };
}

const withoutLoad = (fault: string | null): string | null =>
  fault === null ? null : t`${fault}: no load is computed.`;

/** The mark on one part, in the unit it is stamped in. */
export const ratingForm = (base: Base, now: HoleState): EntryForm => ({
  ...base,
  title: t`Rating of a part`,
  verb: t`Record the rating`,
  caution: t`Unclear or worn off: not read. A competent person decides.`,
  table: 'rated_gear',
  fixed: {},
  fields: [
    {
      kind: 'choice',
      column: 'part',
      label: t`Part`,
      help: t`Each part is compared with the load that it carries.`,
      needed: true,
      options: words([
        ...new Set([
          ...USUAL_PARTS.map(({ part }) => part),
          ...now.campaign.rows.rated_gear.map(({ part }) => part),
        ]),
      ]),
    },
    number(
      'load',
      t`Rated load (WLL)`,
      '',
      t`The working load marked on it, 0.5 to 50 kN or 50 kg to 5 t on gear of this size (common practice). Not the breaking load. ${DEFERS}`,
      { needed: true },
    ),
    {
      ...choice(
        'unit',
        t`Unit`,
        [],
        t`As marked: 1 t is 9.8 kN. T or ton can be any of three; the smallest is used.`,
        't',
      ),
      options: [
        { value: 't', word: t`t (metric)` },
        { value: 'kg', word: 'kg' },
        { value: 'kN', word: 'kN' },
        { value: 'ton', word: t`T or ton, unclear` },
      ],
    },
    text('note', t`Which one`, t`Number or colour of its tag, if there are several.`),
  ],
});
