/** A reading of the log being amended: its values as a form, its turn among the others, and what withdraws it. */

import { type HoleState, holeBefore } from '@stillstand/campaign/holes';
import { useMemo } from 'react';
import { t, translated } from '../../../language/index.ts';
import { Button, Mark } from '../../../parts/index.ts';
import { Entry } from '../forms/entry.tsx';
import type { Amending, Opened } from '../opened.ts';
import type { Shown } from '../shown.ts';
import type { DrillStore } from '../tape/decimal-points.ts';
import { m2 } from '../tape/lengths.ts';
import type { BookLine } from './book.ts';
import { WhichFirst } from './which-first.tsx';
import './amend-leaf.css';

export function AmendLeaf({
  amending: { line, form, draft, note, cleared },
  shown: { lines, clashes },
  store,
  now,
  opened,
  onEnter,
}: {
  amending: Amending;
  shown: Shown;
  store: DrillStore;
  now: HoleState;
  opened: Opened;
  onEnter: () => void;
}) {
  // an older reading is doubted by what stood before it, not by what came since
  const clash = clashes.find(({ readings }) => readings.some(({ row_id }) => row_id === line.root_id));
  const then = useMemo(() => holeBefore(now, line.seq), [now, line.seq]);
  return (
    <Entry
      form={form}
      draft={draft}
      now={then}
      was={Object.fromEntries(form.fields.map((f) => [f.column, f.initial ?? '']))}
      note={note}
      cleared={cleared !== null}
      onClear={opened.clear}
      onDraft={opened.type}
      onEnter={onEnter}
      onLeave={opened.leave}
      above={
        clash === undefined ? null : (
          <WhichFirst {...{ clash, lines }} onMove={store.readOnly ? undefined : opened.order} />
        )
      }
      below={
        <Withdraw
          line={line}
          onWithdraw={() => {
            const { table, root_id, name, state } = line;
            const isBack = state === 'withdrawn';
            if ((isBack ? store.restore(table, root_id) : store.withdraw(table, root_id)) === null) return;
            opened.say(isBack ? t`${name}: restored.` : t`${name}: withdrawn, kept in the log.`);
            opened.leave();
          }}
        />
      }
    />
  );
}

function Withdraw({ line, onWithdraw }: { line: BookLine; onWithdraw: () => void }) {
  return (
    <p className="withdraw">
      {line.findings
        .filter((f) => f.severity !== 'note' && f.code !== 'seq-twice')
        .map((f) => (
          <span key={f.code} className={f.severity === 'danger' ? 'danger' : 'caution'}>
            <Mark name={f.severity === 'danger' ? 'stop' : 'close'} size={16} />{' '}
            {t`Found ${translated(f.found)}; expected ${translated(f.expected)}. ${translated(f.fix)}`}
          </span>
        ))}
      <Button mark={line.state === 'withdrawn' ? 'undo' : 'rejected'} onClick={onWithdraw}>
        {line.state === 'withdrawn' ? t`Restore reading` : t`Withdraw reading`}
      </Button>
      <span className="quiet">
        {line.state === 'withdrawn'
          ? t`Withdrawn; ${m2(line.seq).replace('.00', '')} in the order.`
          : t`It stays in the field log, struck through.`}
      </span>
    </p>
  );
}
