/** The core laid out piece by piece: what lies there already, and the form of the next one. */

import { type HoleState, inForceOf, lastTyped, type RowSource } from '@stillstand/campaign/holes';
import { parseLength } from '@stillstand/campaign/tables';
import { t } from '../../../language/index.ts';
import { typedLength } from '../tape/lengths.ts';
import { type Base, type EntryForm, length, ready, text } from './field.ts';

/** Pieces of the last run that are laid out already, and what is left of it. Lengths from the top of what came up. */
export function piecesSoFar(
  now: HoleState,
  source: RowSource,
): { run: string; recovered_m: number; laid: { top_m: number; bottom_m: number; tray: string }[] } | null {
  const run = now.readings.findLast((r) => r.kind === 'run');
  if (run?.kind !== 'run' || run.recovered_m === null || run.recovered_m <= 0) return null;
  const laid = inForceOf(source, 'pieces', now.row.hole)
    .filter(({ cells }) => cells['run'] === run.run)
    .flatMap(({ cells }) => {
      const [top, bottom] = [parseLength(cells['top'] ?? ''), parseLength(cells['bottom'] ?? '')];
      return top.ok && bottom.ok
        ? [{ top_m: top.metres, bottom_m: bottom.metres, tray: cells['tray'] ?? '' }]
        : [];
    });
  return { run: run.run, recovered_m: run.recovered_m, laid };
}

export function piecesForm(base: Base, now: HoleState, source: RowSource): EntryForm {
  const so = piecesSoFar(now, source);
  const run = now.readings.findLast((r) => r.kind === 'run');
  const fallIn = run?.kind === 'run' ? (run.fall_in_m ?? 0) : 0;
  const top = Math.max(fallIn, ...(so?.laid.map((p) => p.bottom_m) ?? []));
  const tray = so?.laid.at(-1)?.tray || lastTyped(source, 'pieces', base.fixed['hole'] ?? '', 'tray');
  const next = /^(.*?)(\d+)$/.exec(tray);
  return {
    ...base,
    title: t`Piece ${(so?.laid.length ?? 0) + 1} of ${so?.run ?? t`the run`}`,
    verb: t`Record the piece`,
    table: 'pieces',
    fixed: { ...base.fixed, run: so?.run ?? '' },
    fields: [
      length(
        'bottom',
        t`Lower end`,
        t`From the top of what came up, fall-in included, down to the lower end of this piece.`,
        {
          needed: true,
          ...(so === null ? {} : { initial: typedLength(so.recovered_m, now.units.core), assumed: true }),
        },
      ),
      length(
        'top',
        t`Upper end`,
        t`Lower than the piece above it where a gap was left: a gap is lost core.`,
        {
          needed: true,
          initial: typedLength(top, now.units.core),
          assumed: true,
        },
      ),
      {
        ...text('tray', t`Tray`, t`Where it lies, as it is written on the tray.`),
        initial: tray,
        ready: ready([
          ...(tray === '' ? ['1'] : [tray]),
          ...(next === null ? [] : [`${next[1]}${Number(next[2]) + 1}`]),
        ]),
      },
      {
        ...text('condition', t`Condition`, t`Intact, broken, washed: what it can still tell.`),
        initial: t`intact`,
        ready: ready([t`intact`, t`broken`, t`washed`, t`smeared`, t`dried out`]),
      },
    ],
  };
}
