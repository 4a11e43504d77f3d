/** The top line: the hole, where it is and how it stands, the hour, and when the place must be left. */

import type { HoleState } from '@stillstand/campaign/holes';
import { clockOf } from '@stillstand/campaign/tables';
import { useState } from 'react';
import type { TideNow } from '../../../days/index.ts';
import { t, translated } from '../../../language/index.ts';
import { Mark, Sheet } from '../../../parts/index.ts';
import { HeadAside, HeadTitle } from '../../../shell/index.ts';
import type { Store } from '../../../store/index.ts';
import { dayOf, hourMinute } from '../awake.ts';
import { m2, signed } from '../tape/lengths.ts';
import { CallInTop } from './call-in-top.tsx';
import { HoleList, StartHole } from './hole-choice.tsx';
import './top-line.css';

export function TopLine({
  store,
  now,
  hole,
  site,
  at,
  tide,
  onHole,
}: {
  store: Store;
  now: HoleState;
  hole: string;
  /** Name of the site, where it is known. */
  site: string;
  at: Date;
  /** What the tide does now; null where no tide is known. */
  tide: TideNow | null;
  onHole: (hole: string) => void;
}) {
  const [choosing, setChoosing] = useState(false);
  const toHole = (next: string): void => {
    setChoosing(false);
    onHole(next);
  };
  return (
    <>
      <HeadTitle>
        <div className="drill-title">
          <button
            type="button"
            className="hole-name"
            aria-haspopup="dialog"
            onClick={() => setChoosing(true)}
          >
            <h1>{hole}</h1>
            <Mark name="down" size={16} label={t`another hole`} />
          </button>
          <p>
            <span className="site">
              {site}
              <br />
            </span>
            <span className="quiet">
              {standing(now)}
              {referenceWords(now)}
              {now.fold.deepest_m === null || now.run !== null ? null : (
                <span className="deep">{t`, down to ${m2(now.fold.deepest_m)} m`}</span>
              )}
            </span>
          </p>
        </div>
      </HeadTitle>
      <HeadAside>
        <div className="drill-times">
          {tide === null ? null : <Tide tide={tide} />}
          <CallInTop store={store} />
          <LeaveBy store={store} at={at} />
        </div>
        <time className="drill-clock">{hourMinute(at)}</time>
      </HeadAside>
      {choosing ? (
        <Sheet title={t`Holes`} onClose={() => setChoosing(false)}>
          <HoleList store={store} current={hole} onHole={toHole} />
          <StartHole store={store} onHole={toHole} />
        </Sheet>
      ) : null}
    </>
  );
}

/** "flood, +0.44 m" and "high water 16:52, +1.10 m": by the clock of the device. */
const Tide = ({ tide: { state, height_m, next } }: { tide: TideNow }) => (
  <p className="tide-now">
    {translated(state)}, {signed(m2(height_m))} m
    <span>{t`, ${next.kind === 'high' ? t`high water` : t`low water`} ${hourMinute(new Date(next.time_ms))}, ${signed(m2(next.height_m))}`}</span>
  </p>
);

function standing(now: HoleState): string {
  const { fold, run, row } = now;
  if (now.ended) return translated(row.state ?? '');
  if (row.method !== 'string')
    return row.method === 'hand' ? t`hand-cored` : t`cored by ${translated(row.method ?? '')}`;
  const joints =
    fold.joints_in === 0
      ? t`no joint in string`
      : fold.joints_in === 1
        ? t`1 joint in string`
        : t`${fold.joints_in} joints in string`;
  if (run !== null) return t`${joints}, run ${run.run} in progress`;
  if (row.state !== null && row.state !== 'open') return `${joints}, ${translated(row.state)}`;
  return joints;
}

/** Where the reference of a replacement hole is from. */
function referenceWords({ row: { reference_basis, replaces } }: HoleState): string {
  if (reference_basis === 'assumed') return t`, reference assumed as in ${replaces ?? t`the hole before`}`;
  return reference_basis === 'levelled' ? t`, reference levelled again` : '';
}

/** When the place must be left today, with the state it puts people in as the hour comes near. */
function LeaveBy({ store, at }: { store: Store; at: Date }) {
  const today = store.rows('field_days').find((d) => d.cells['date'] === dayOf(at));
  const leave = today?.cells['leave_by'] ?? '';
  const moment = Date.parse(leave);
  if (leave === '' || !Number.isFinite(moment)) return null;
  const minutes = Math.floor((moment - at.getTime()) / 60_000);
  const level = minutes < 0 ? 'danger' : minutes < 60 ? 'caution' : 'normal';
  return (
    <p className="leave-by" data-level={level} role={level === 'danger' ? 'alert' : undefined}>
      {level === 'normal' ? null : <Mark name={level === 'danger' ? 'stop' : 'close'} size={20} />}
      <strong>
        {level === 'danger' ? t`Leave now: it was ${clockOf(leave)}` : t`leave by ${clockOf(leave)}`}
      </strong>
      {level === 'caution' ? <span> {t`in ${minutes} min`}</span> : null}
    </p>
  );
}
