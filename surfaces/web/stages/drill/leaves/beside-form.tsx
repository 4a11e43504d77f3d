/** What stands beside the fields of a form: above them what to look at first, beside the keys the whole caution. */

import type { HoleState, RowSource } from '@stillstand/campaign/holes';
import { atLeast } from '@stillstand/science/base';
import { bore_mm, boreVolume_l, waterToAdd_l } from '@stillstand/science/rig';
import type { ReactNode } from 'react';
import { t } from '../../../language/index.ts';
import type { FormName } from '../forms/field.ts';
import type { Happening } from '../forms/something-else.ts';
import type { Tape } from '../tape/cable.ts';
import { HandOverState } from './hand-over.tsx';
import { Caution, LostNote, RunCautions, TapeTable } from './leaves.tsx';
import { PermitNote } from './permit-note.tsx';
import { PipeTallyNote } from './pipe-tally.tsx';
import { RatedList } from './rated-list.tsx';

export function aboveOf(
  form: FormName,
  {
    tape,
    missing,
    now,
    source,
  }: {
    tape: readonly Tape[];
    missing: readonly string[];
    now: HoleState;
    source: RowSource;
  },
): ReactNode {
  if (form === 'hand_over') return <HandOverState now={now} source={source} />;
  if (form === 'mark') return <TapeTable tape={tape} />;
  if (form === 'fill') return <p className="reminder">{fillWords(now)}</p>;
  if (form === 'run') {
    return (
      <>
        <RunCautions missing={missing} />
        {tape.length > 1 ? <p className="reminder">{t`Stop mark at ${tape.at(-1)!.said}.`}</p> : null}
      </>
    );
  }
  if (form === 'close') {
    return (
      <>
        <PipeTallyNote now={now} />
        <LostNote now={now} />
        <PermitNote now={now} source={source} />
      </>
    );
  }
  if (form === 'lost') return <LostNote now={now} />;
  return null;
}

/** At the foot of the fields: a list that each of its lines leads out of. */
export function footOf(
  form: FormName,
  { now, onHappen }: { now: HoleState; onHappen: (happening: Happening) => void },
): ReactNode {
  return form === 'gear' ? <RatedList now={now} onHappen={onHappen} /> : null;
}

/** The whole of a caution, beside the keys: what it says belongs to the numbers on the other leaf. */
export function asideOf(form: FormName): ReactNode {
  if (form === 'mark') return <Caution of="cable" />;
  if (form === 'pull' || form === 'gear' || form === 'rating') return <Caution of="line_pull" />;
  if (form === 'waters') return <Caution of="water" />;
  return null;
}

/** How much water it takes, where the bore of the pipe is known. */
function fillWords(now: HoleState): string {
  if (now.pipe === null) return t`Fill to the brim, and watch that it stays.`;
  const bore = bore_mm(now.pipe);
  const inside = now.water.inside_m;
  const stickUp = now.last?.stick_up_m ?? null;
  const each = t`${atLeast(boreVolume_l(bore, 1), 1).toFixed(1)} L a metre of pipe`;
  if (inside === null || stickUp === null) return each;
  return t`At least ${atLeast(waterToAdd_l(bore, inside + stickUp, 0), 0).toFixed(0)} L to the brim; ${each}`;
}
