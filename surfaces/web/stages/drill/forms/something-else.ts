/** What can happen beside the usual: each opens the form that records it, filled as far as it is known. */
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
  { name: 'Injury', says: 'Whom to call, and where we are', form: 'injury' },
  {
    name: 'Slowing or refusal',
    says: 'Penetration slow or stopped',
    form: 'stuck',
    needs: 'string',
  },
  {
    name: 'Obstruction',
    says: 'Stone, log, hard floor',
    form: 'stuck',
    with: { ended_by: 'obstruction' },
    needs: 'string',
  },
  {
    name: 'Sampler stuck',
    says: 'It does not come up',
    form: 'lay_out',
    with: { outcome: 'stuck', recovered: '0 m' },
    needs: 'run',
  },
  {
    name: 'Sand inflow (heave)',
    says: 'Plug rose without a drive or run',
    form: 'sound',
    with: { purpose: 'other' },
    needs: 'string',
  },
  { name: 'Water lost', says: 'The level inside fell', form: 'water', needs: 'string' },
  { name: 'Joint loose', says: 'A thread has come undone', form: 'loose', needs: 'string' },
  { name: 'String lost', says: 'Parted or stuck', form: 'lost', needs: 'string' },
  {
    name: 'Sampler lost',
    says: 'Cable or knot failed',
    form: 'lay_out',
    with: { outcome: 'sampler_lost', recovered: '0 m' },
    needs: 'run',
  },
  { name: 'Stop for the tide', says: 'Leave, and come back to it', form: 'tide' },
  { name: 'Breakdown', says: 'Gear that stops the work', form: 'breakdown' },
  { name: 'Weather', says: 'Wind, rain, sea, thunder', form: 'weather' },
  { name: 'Crew change', says: 'New recorder', form: 'crew' },
  { name: 'Hand over', says: 'The hole to the next crew', form: 'hand_over' },
  { name: 'Call-in', says: 'Next call ashore, with whom', form: 'call_in' },
  { name: 'Instrument check', says: 'Tape, cable, staff, receiver', form: 'instrument' },
  { name: 'Ground moved', says: 'Remeasure it below the reference', form: 'ground' },
  { name: 'Pull the string', says: 'End the hole here', form: 'pull', needs: 'string' },
  { name: 'End the hole', says: 'Nothing goes deeper here', form: 'close' },
  { name: 'Anything else', says: 'A note in its place', form: 'note' },
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
