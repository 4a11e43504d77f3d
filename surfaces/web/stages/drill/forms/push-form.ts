/** One push of a tube, a chamber or a hand corer, as it is entered. */

import { type HoleState, inForceOf, type RowSource } from '@stillstand/campaign/holes';
import { t } from '../../../language/index.ts';
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
    t`Sediment inside`,
    t`From the top of the tube down to the sediment inside, before it is pulled.`,
  );
  const outside = length(
    'outside_top',
    t`Ground outside`,
    t`From the top of the tube down to the ground, before it is pulled: inside less outside is the shortening.`,
  );
  return {
    ...base,
    title: t`Push P${n}`,
    verb: t`Record the push`,
    caution: tube ? t`Nobody under the load while it is pulled.` : null,
    table: 'pushes',
    fixed: { ...base.fixed, push: `P${n}` },
    fields: [
      length(
        'to',
        t`Lower end`,
        t`Lower end of the push below the ground. Chambers are usually 0.5 or 1 m long.`,
        {
          needed: true,
        },
      ),
      length('from', t`Upper end`, t`Upper end of the push below the ground: where the last one ended.`, {
        needed: true,
        initial: last['to'] ?? typedLength(0, now.units.tape),
        assumed: true,
      }),
      length('recovered', t`Came up`, t`Length recovered; blank where the chamber is read in place.`),
      ...(tube ? [inside, outside] : []),
      text('note', t`Note`, t`Soft, stone at the tip, water in the chamber.`),
    ],
  };
}
