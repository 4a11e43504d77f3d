/** What can happen beside the usual: each opens the form that records it, filled as far as it is known. */
import { t } from '../../../language/index.ts';
import type { EntryForm, FormName } from './field.ts';

export interface Happening {
  name: string;
  says: string;
  form: FormName;
  /** Values that this happening brings along. */
  with?: Readonly<Record<string, string>>;
  /** Only while there is something for it to happen to. */
  needs?: 'string' | 'run';
}

export const HAPPENINGS: readonly Happening[] = [
  { name: t`Injury`, says: t`Whom to call, and where we are`, form: 'injury' },
  {
    name: t`Slowing or refusal`,
    says: t`Penetration slow or stopped`,
    form: 'stuck',
    needs: 'string',
  },
  {
    name: t`Obstruction`,
    says: t`Stone, log, hard floor`,
    form: 'stuck',
    with: { ended_by: 'obstruction' },
    needs: 'string',
  },
  {
    name: t`Sampler stuck`,
    says: t`It does not come up`,
    form: 'lay_out',
    with: { outcome: 'stuck', recovered: '0 m' },
    needs: 'run',
  },
  {
    name: t`Sand inflow (heave)`,
    says: t`Plug rose without a drive or run`,
    form: 'sound',
    with: { purpose: 'other' },
    needs: 'string',
  },
  { name: t`Water lost`, says: t`The level inside fell`, form: 'water', needs: 'string' },
  { name: t`Joint loose`, says: t`A thread has come undone`, form: 'loose', needs: 'string' },
  { name: t`String lost`, says: t`Parted or stuck`, form: 'lost', needs: 'string' },
  {
    name: t`Sampler lost`,
    says: t`Cable or knot failed`,
    form: 'lay_out',
    with: { outcome: 'sampler_lost', recovered: '0 m' },
    needs: 'run',
  },
  { name: t`Stop for the tide`, says: t`Leave, and come back to it`, form: 'tide' },
  { name: t`Breakdown`, says: t`Gear that stops the work`, form: 'breakdown' },
  { name: t`Weather`, says: t`Wind, rain, sea, thunder`, form: 'weather' },
  { name: t`Crew change`, says: t`New recorder`, form: 'crew' },
  { name: t`Hand over`, says: t`The hole to the next crew`, form: 'hand_over' },
  { name: t`Call-in`, says: t`Next call ashore, with whom`, form: 'call_in' },
  { name: t`Instrument check`, says: t`Tape, cable, staff, receiver`, form: 'instrument' },
  { name: t`Ground moved`, says: t`Remeasure it below the reference`, form: 'ground' },
  { name: t`Pull the string`, says: t`End the hole here`, form: 'pull', needs: 'string' },
  { name: t`End the hole`, says: t`Nothing goes deeper here`, form: 'close' },
  { name: t`Anything else`, says: t`A note in its place`, form: 'note' },
];

/** The form with the happening's values standing in it. */
export function happened(form: EntryForm, happening: Happening): EntryForm {
  if (happening.with === undefined) return form;
  const given = happening.with;
  return {
    ...form,
    title: happening.name,
    fixed: {
      ...form.fixed,
      ...Object.fromEntries(Object.entries(given).filter(([c]) => !form.fields.some((f) => f.column === c))),
    },
    fields: form.fields.map((f) => (given[f.column] === undefined ? f : { ...f, initial: given[f.column]! })),
  };
}
