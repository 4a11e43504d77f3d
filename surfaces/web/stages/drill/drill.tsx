/** Drill: the hole to scale, the four numbers, one next action, and whatever else is entered. */

import type { HoleRead } from '@stillstand/campaign/holes';
import { traceId } from '@stillstand/campaign/results';
import { useMemo } from 'react';
import { DangerPlate } from '../../holes/index.ts';
import { language } from '../../language/index.ts';
import { Act } from './act.tsx';
import { Below } from './below.tsx';
import { useAlarm } from './leaves/alarm.ts';
import { FourNumbers } from './numbers/four-numbers.tsx';
import { fourNumbers } from './numbers/numbers.ts';
import { pushNumbers } from './numbers/push-hole.ts';
import { type Leads, type Opened, useOpened } from './opened.ts';
import { Drawing } from './picture/drawing.tsx';
import { PushDrawing } from './picture/push-drawing.tsx';
import { type Given, useShown } from './shown.ts';
import { Tools } from './tools.tsx';

export interface DrillProps extends Given, Leads {
  now: HoleRead;
  theme: 'day' | 'night';
  /** In-situ depth of a run, where the depth model knows it already. */
  runDepth: (run: string) => string | null;
  onSheet: () => void;
  /** The sheet of the day. */
  onDayEnd: () => void;
}

export function Drill(props: DrillProps) {
  const { store, now, theme, day } = props;
  const hole = now.row.hole;
  const shown = useShown(props);
  const { byString, pushes, dangers, next, moment } = shown;
  // a new danger is also heard and felt
  useAlarm(hole, dangers.length + now.fold.findings.filter((f) => f.severity === 'danger').length);
  const opened = useOpened(store, now, shown, props);
  const { below } = opened;
  const pulling =
    next.name === 'pull' || (below?.kind === 'form' && /^(?:pull|gear|rating)$/.test(below.form.name));
  const numbers = useMemo(
    () => (byString ? fourNumbers(now, moment, pulling) : pushNumbers(pushes, now)),
    [now, moment, byString, pulling, pushes],
  );
  return (
    <div
      className="drill"
      lang={language}
      data-below={opensAs(below) ?? (now.run === null ? 'idle' : 'run')}
      data-typing={opened.entry !== null || now.run !== null}
    >
      {byString ? (
        <Drawing view={shown.view} theme={theme} hole={hole} />
      ) : (
        <PushDrawing pushes={pushes} ahead={shown.view.ahead} hole={hole} />
      )}
      <FourNumbers
        numbers={numbers}
        onBasis={opened.openForm}
        trace={byString && now.readings.length > 0 ? traceId.hole(hole).rig : null}
        plate={
          // the site check carries its own
          dangers.length === 0 || below?.kind === 'check' ? null : (
            <DangerPlate
              hazards={dangers.map((check) => ({ check }))}
              day={day}
              onAnswer={store.readOnly ? undefined : opened.openCheck}
              opensAll
            />
          )
        }
      />
      <Tools {...{ store, now, shown, opened }} />
      <Below
        {...{ store, now, shown, opened, day }}
        runDepth={props.runDepth}
        onSheet={props.onSheet}
        onDayEnd={props.onDayEnd}
      />
      <Act {...{ shown, opened }} ended={now.ended} readOnly={store.readOnly} />
      <p className="unseen" role="status">
        {opened.said}
      </p>
    </div>
  );
}

/** An injury and a hand-over take the place of all else. */
const opensAs = (below: Opened['below']): string | undefined =>
  below?.kind === 'form' && /^(?:injury|hand_over)$/.test(below.form.name) ? 'whole' : below?.kind;
