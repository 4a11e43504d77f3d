/** A run of the sampler: where it touched, its cable readings, and what came up. */

import { type HoleState, lastTyped, type RowSource } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { t } from '../../../language/index.ts';
import { LOAD } from '../next/action.ts';
import { typedIfKnown } from '../tape/lengths.ts';
import { type Base, choice, type EntryForm, length, number, ready, text } from './field.ts';

export function runForm(base: Base, now: HoleState, source: RowSource): EntryForm {
  const hole = now.row.hole;
  return {
    ...base,
    title: t`Run the sampler`,
    verb: t`Record touch mark`,
    caution: LOAD,
    table: 'runs',
    fields: [
      length(
        'start_mark',
        t`Cable when it touched`,
        t`Cable reading at touchdown: tip below the collar. As sounded, or check the zero.`,
        {
          needed: true,
          initial: typedIfKnown(now.sediment.sounded_m, now.units.cable),
          assumed: now.sediment.sounded_m !== null,
        },
      ),
      { ...text('run', t`Run`, t`Its label in this hole.`), initial: nextRun(source, hole), needed: true },
      {
        ...choice(
          'sampler',
          t`Sampler`,
          [],
          t`Which sampler.`,
          lastTyped(source, 'runs', hole, 'sampler') || (now.campaign.rows.samplers[0]?.sampler ?? ''),
        ),
        options: ready(now.campaign.rows.samplers.map((s) => s.sampler)),
      },
    ],
  };
}

function nextRun(source: RowSource, hole: string): string {
  let highest = 0;
  for (const { cells } of source.rows('runs')) {
    if (cells['hole'] !== hole) continue;
    const n = Number(/(\d+)\s*$/.exec(cells['run'] ?? '')?.[1] ?? 0);
    if (n > highest) highest = n;
  }
  return `R${highest + 1}`;
}

export function cableForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: t`Run ${now.run?.run ?? ''}`.trim(),
    verb: t`Record the cable`,
    caution: LOAD,
    table: 'runs',
    fields: [
      length('end_mark', t`Cable at the collar`, t`Read the mark that passes the collar.`, { needed: true }),
    ],
  };
}

export function layOutForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: t`Lay out the core`,
    verb: t`Record the core`,
    caution: null,
    table: 'runs',
    fields: [
      length(
        'recovered',
        t`Came up`,
        t`All that came up, fall-in on top of it included. Up to about 1.2 m a run (common practice).`,
        { needed: true },
      ),
      choice(
        'laid_out',
        t`Laid out`,
        ['later', 'in one piece', 'piece by piece'],
        t`Record each piece now or later: select the run in the field log, or Lay out in pieces.`,
        'later',
      ),
      length('fall_in', t`Fall-in on top`, t`Disturbed, loose sediment on top of it, excluded from depths.`),
      choice(
        'outcome',
        t`How it went`,
        schemas.runs.columns.outcome.choices,
        t`Full, part, empty, lost while lifting.`,
        '',
      ),
      choice(
        'loss_position',
        t`Core lost at`,
        schemas.runs.columns.loss_position.choices,
        t`Where the missing core was lost: base (torn lower end), top (washed), spread along it, or unknown.`,
        'unknown',
      ),
      number('strokes', t`Strokes`, '', t`How often it was lifted and dropped.`, {
        whole: true,
        initial: strokesSoFar(now),
      }),
    ],
  };
}

const strokesSoFar = (now: HoleState): string => {
  const run = now.readings.findLast((r) => r.kind === 'run');
  return run?.kind === 'run' && run.strokes !== null ? String(run.strokes) : '';
};
