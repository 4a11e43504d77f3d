/** One push of a tube, a chamber or a hand corer, as it is entered. */
import { type HoleState, inForceOf, type RowSource } from '@stillstand/campaign/holes';
import { typedLength } from '../tape/lengths.ts';
import { type Base, type EntryForm, length, text } from './field.ts';

export function pushForm(base: Base, source: RowSource, now: HoleState): EntryForm {
  const rows = inForceOf(source, 'pushes', now.row.hole);
  const last = rows.at(-1)?.cells ?? {};
  const labels = new Set(rows.map((r) => r.cells['push']));
  let n = rows.length + 1;
  while (labels.has(`P${n}`)) n++;
  const tube = now.row.method === 'tube';
  const inside = length(
    'inside_top',
    'Sediment inside',
    'From the top of the tube down to the sediment inside, before it is pulled.',
  );
  const outside = length(
    'outside_top',
    'Ground outside',
    'From the top of the tube down to the ground, before it is pulled: inside less outside is the shortening.',
  );
  return {
    ...base,
    title: `Push P${n}`,
    verb: 'Record the push',
    caution: tube ? 'Nobody under the load while it is pulled.' : null,
    table: 'pushes',
    fixed: { ...base.fixed, push: `P${n}` },
    fields: [
      length(
        'to',
        'Lower end',
        'Lower end of the push below the ground. Chambers are usually 0.5 or 1 m long.',
        {
          needed: true,
        },
      ),
      length('from', 'Upper end', 'Upper end of the push below the ground: where the last one ended.', {
        needed: true,
        initial: last['to'] ?? typedLength(0, now.units.tape),
        assumed: true,
      }),
      length('recovered', 'Came up', 'Length recovered; blank where the chamber is read in place.'),
      ...(tube ? [inside, outside] : []),
      text('note', 'Note', 'Soft, stone at the tip, water in the chamber.'),
    ],
  };
}
