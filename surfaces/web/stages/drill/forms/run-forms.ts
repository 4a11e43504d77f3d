/** A run of the sampler: where it touched, its cable readings, and what came up. */
import { type HoleState, lastTyped, type RowSource } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { LOAD } from '../next/action.ts';
import { typedIfKnown } from '../tape/lengths.ts';
import { type Base, choice, type EntryForm, length, number, text } from './field.ts';

export function runForm(base: Base, now: HoleState, source: RowSource): EntryForm {
  const hole = now.row.hole;
  return {
    ...base,
    title: 'Run the sampler',
    verb: 'Record touch mark',
    caution: LOAD,
    table: 'runs',
    fields: [
      length(
        'start_mark',
        'Cable when it touched',
        'Cable reading at touchdown: tip below the collar. As sounded, or check the zero.',
        {
          needed: true,
          initial: typedIfKnown(now.sediment.sounded_m, now.units.cable),
          assumed: now.sediment.sounded_m !== null,
        },
      ),
      { ...text('run', 'Run', 'Its label in this hole.'), initial: nextRun(source, hole), needed: true },
      choice(
        'sampler',
        'Sampler',
        now.campaign.rows.samplers.map((s) => s.sampler),
        'Which sampler.',
        lastTyped(source, 'runs', hole, 'sampler') || (now.campaign.rows.samplers[0]?.sampler ?? ''),
      ),
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
    title: `Run ${now.run?.run ?? ''}`.trim(),
    verb: 'Record the cable',
    caution: LOAD,
    table: 'runs',
    fields: [
      length('end_mark', 'Cable at the collar', 'Read the mark that passes the collar.', { needed: true }),
    ],
  };
}

export function layOutForm(base: Base, now: HoleState): EntryForm {
  return {
    ...base,
    title: 'Lay out the core',
    verb: 'Record the core',
    caution: null,
    table: 'runs',
    fields: [
      length(
        'recovered',
        'Came up',
        'All that came up, fall-in on top of it included. Up to about 1.2 m a run (common practice).',
        { needed: true },
      ),
      choice(
        'laid_out',
        'Laid out',
        ['later', 'in one piece', 'piece by piece'],
        'Record each piece now or later: select the run in the field log, or Lay out in pieces.',
        'later',
      ),
      length('fall_in', 'Fall-in on top', 'Disturbed, loose sediment on top of it, excluded from depths.'),
      choice(
        'outcome',
        'How it went',
        schemas.runs.columns.outcome.choices,
        'Full, part, empty, lost while lifting.',
        '',
      ),
      choice(
        'loss_position',
        'Core lost at',
        schemas.runs.columns.loss_position.choices,
        'Where the missing core was lost: base (torn lower end), top (washed), spread along it, or unknown.',
        'unknown',
      ),
      number('strokes', 'Strokes', '', 'How often it was lifted and dropped.', {
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
