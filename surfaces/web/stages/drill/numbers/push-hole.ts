/**
 * A hole cored without a string: a one-piece tube, a chamber, a gouge or a hand corer. Each push is a reading: where it
 * began and ended, what came up, and for a tube how far it was shortened, read inside against outside.
 */

import { type HoleState, inOrderOf, type RowSource } from '@stillstand/campaign/holes';
import { parseLength } from '@stillstand/campaign/tables';
import { t } from '../../../language/index.ts';
import { type NextAction, say } from '../next/action.ts';
import { m2, saidLength } from '../tape/lengths.ts';
import { type BigNumber, known, unknown } from './big-number.ts';

export interface Push {
  row_id: string;
  label: string;
  from_m: number;
  to_m: number;
  recovered_m: number | null;
  /** Sediment inside less ground outside: what the core is shorter than the push. */
  shortening_m: number | null;
}

/** The pushes that stand, in the order of seq; what cannot be read is left out and named by the campaign's problems. */
export function pushesOf(source: RowSource, now: HoleState): Push[] {
  return inOrderOf(source, 'pushes', now.row.hole).flatMap(({ row_id, cells }): Push[] => {
    const metres = (column: string): number | null => {
      const read = parseLength(cells[column] ?? '');
      return read.ok ? read.metres : null;
    };
    const [from_m, to_m] = [metres('from'), metres('to')];
    if (from_m === null || to_m === null) return [];
    const [inside, outside] = [metres('inside_top'), metres('outside_top')];
    return [
      {
        row_id,
        label: cells['push'] ?? '',
        from_m,
        to_m,
        recovered_m: metres('recovered'),
        shortening_m: inside === null || outside === null ? null : inside - outside,
      },
    ];
  });
}

/** Depth, what came up, and where the next push begins: the numbers a hand corer asks for. */
export function pushNumbers(
  pushes: readonly Push[],
  now: HoleState,
): [BigNumber, BigNumber, BigNumber, BigNumber] {
  const last = pushes.at(-1);
  const crew = (m: number): string | null => (now.units.tape === 'ft' ? saidLength(m, 'ft') : null);
  if (last === undefined)
    return [
      unknown(t`Depth`, 'm', t`no push yet`),
      unknown(t`Came up, last push`, '%', t`no push yet`),
      unknown(t`Came up in all`, '%', t`no push yet`),
      { ...unknown(t`Next push from`, 'm', t`the ground`), value: m2(0) },
    ];
  const deepest = Math.max(...pushes.map((p) => p.to_m));
  const measured = pushes.filter((p) => p.recovered_m !== null && p.to_m > p.from_m);
  const up = measured.reduce((sum, p) => sum + p.recovered_m!, 0);
  const pushed = measured.reduce((sum, p) => sum + p.to_m - p.from_m, 0);
  const advance = last.to_m - last.from_m;
  const gap = gaps(pushes);
  const short =
    last.shortening_m === null
      ? ''
      : last.shortening_m >= 0
        ? t`; ${m2(last.shortening_m)} m shorter inside`
        : t`; ${m2(-last.shortening_m)} m longer inside`;
  return [
    {
      ...known(
        t`Depth`,
        m2(deepest),
        'm',
        null,
        pushes.length === 1 ? t`1 push` : t`${pushes.length} pushes`,
      ),
      crew: crew(deepest),
    },
    last.recovered_m === null || advance <= 0
      ? unknown(t`Came up, last push`, '%', t`${last.label}: not measured${short}`)
      : known(
          t`Came up, last push`,
          ((last.recovered_m / advance) * 100).toFixed(0),
          '%',
          null,
          t`${m2(last.recovered_m)} m of ${m2(advance)}${short}`,
        ),
    pushed <= 0
      ? unknown(t`Came up in all`, '%', t`no push measured`)
      : known(
          t`Came up in all`,
          ((up / pushed) * 100).toFixed(0),
          '%',
          null,
          t`${m2(up)} m of ${m2(pushed)} pushed`,
        ),
    {
      ...known(t`Next push from`, m2(last.to_m), 'm', null, t`${last.label} ended there`),
      crew: crew(last.to_m),
      ...(gap === null ? {} : { level: 'caution' as const, word: t`Gap`, say: gap }),
    },
  ];
}

/** The ground between two pushes that neither has cored, in words; null where there is none. */
function gaps(pushes: readonly Push[]): string | null {
  const down = [...pushes].sort((a, b) => a.from_m - b.from_m);
  let reached = 0;
  for (const p of down) {
    if (p.from_m > reached + 0.005) return t`Not cored: ${m2(reached)} to ${m2(p.from_m)} m.`;
    reached = Math.max(reached, p.to_m);
  }
  return null;
}

/** What usually follows where there is no string: level the ground, then push after push. */
export function nextPush(now: HoleState, pushes: readonly Push[]): NextAction {
  if (now.ended) return say('next_hole', t`Plan the next hole`, t`${now.row.hole} has ended`, '');
  if (!now.readings.some((r) => r.kind === 'ground'))
    return say('ground', t`Measure ground level`, t`below the reference`, t`then push`);
  const last = pushes.at(-1);
  return last === undefined
    ? say('push', t`Record the first push`, t`from the ground down`, t`then the next one`, { or: ['ground'] })
    : say('push', t`Record a push`, t`from ${m2(last.to_m)} m`, t`then the next one`, {
        or: ['ground', 'close'],
      });
}
