/** The leaf below the numbers, by what is open: an entry, the log, a list; else the run in hand; else the log at rest. */

import { emergencyAt, giveAnswer, type HoleRead } from '@stillstand/campaign/holes';
import { t } from '../../language/index.ts';
import { Button } from '../../parts/index.ts';
import { AmendLeaf } from './book/amend-leaf.tsx';
import { Book } from './book/book.tsx';
import { Decide } from './book/decide.tsx';
import { missing } from './forms/draft.ts';
import { Entry } from './forms/entry.tsx';
import { aboveOf, asideOf, footOf } from './leaves/beside-form.tsx';
import { EmergencyPlate } from './leaves/emergency-plate.tsx';
import { Idle } from './leaves/idle.tsx';
import { PiecesLaid, SiteCheck, SomethingElse } from './leaves/leaves.tsx';
import { PlannedHere } from './leaves/planned-here.tsx';
import { RunInHand } from './leaves/run-in-hand.tsx';
import type { Opened } from './opened.ts';
import type { Shown } from './shown.ts';
import type { DrillStore } from './tape/decimal-points.ts';
import './below.css';

interface BelowProps {
  store: DrillStore;
  now: HoleRead;
  shown: Shown;
  opened: Opened;
  /** Today: the day whose safety answers hold. */
  day: string;
  /** In-situ depth of a run, where the depth model knows it already. */
  runDepth: (run: string) => string | null;
  onSheet: () => void;
  onDayEnd: () => void;
}

export function Below(props: BelowProps) {
  return (
    <div className="below">
      <Leaf {...props} />
    </div>
  );
}

function Leaf({ store, now, shown, opened, day, runDepth, onSheet, onDayEnd }: BelowProps) {
  const { lines, so, tape, checks } = shown;
  const { below, cable, choose, leave, save, say } = opened;
  const enter = (): void => (opened.lacks === '' ? save() : undefined);
  const hole = now.row.hole;
  switch (below?.kind) {
    case 'form':
      return (
        <>
          {below.form.name === 'injury' ? (
            <EmergencyPlate emergency={emergencyAt(store, day, now.row, now.campaign.rows.sites)} />
          ) : null}
          <Entry
            key={below.form.name}
            form={below.form}
            draft={below.draft}
            now={now}
            note={below.note}
            cleared={below.cleared !== null}
            onClear={opened.clear}
            onDraft={opened.type}
            onEnter={enter}
            onLeave={leave}
            above={
              below.form.name === 'pieces' ? (
                <>
                  <PiecesLaid so={so} onSkip={leave} />
                  <PlannedHere {...{ store, now }} onSaid={say} />
                </>
              ) : (
                aboveOf(below.form.name, {
                  tape,
                  missing: shown.cable.missing,
                  now,
                  source: store,
                })
              )
            }
            below={footOf(below.form.name, { now, onHappen: opened.happen })}
            aside={asideOf(below.form.name)}
          />
        </>
      );
    case 'amend':
      return (
        <AmendLeaf
          key={below.line.root_id}
          amending={below}
          onEnter={enter}
          {...{ shown, store, now, opened }}
        />
      );
    case 'decide':
      return (
        <Decide
          line={lines.find((l) => l.root_id === below.line.root_id) ?? below.line}
          disabled={store.readOnly}
          onDecide={(choice) => {
            if (store.decide(below.line.table, below.line.root_id, choice) === null) return;
            say(t`${below.line.name}: decided.`);
            leave();
          }}
          onLeave={leave}
        />
      );
    case 'check':
      return (
        <SiteCheck
          {...{ checks, hole, day }}
          disabled={store.readOnly}
          onAnswer={(check, answer) => giveAnswer(store, check, answer, day, hole)}
          onLeave={leave}
        />
      );
    case 'else':
      return <SomethingElse now={now} onHappen={opened.happen} onDayEnd={onDayEnd} onLeave={leave} />;
    case 'book':
      return (
        <div className="book-whole">
          <Book
            log={shown.log}
            chosen={null}
            store={store}
            onChoose={choose}
            onMove={store.readOnly ? undefined : opened.order}
            title={t`Field log`}
            note={t`in the order of the readings; select a value to amend it`}
          />
          <p className="book-tools">
            <Button mark="save" onClick={() => print()}>{t`Print a blank sheet`}</Button>
            <Button mark="plus" onClick={onSheet}>{t`Type in a sheet`}</Button>
          </p>
        </div>
      );
  }
  if (now.run === null || cable === null) return <Idle {...{ store, now, shown, opened, day }} />;
  return (
    <RunInHand
      {...{ now, lines }}
      cableForm={cable.form}
      cableDraft={cable.draft}
      missing={shown.cable.missing}
      kept={cable.note}
      depth={runDepth(now.run.run)}
      onDraft={cable.onDraft}
      onEnter={() => (opened.cableTyped && missing(cable.form, cable.draft) === '' ? save() : undefined)}
      onAmend={choose}
    />
  );
}
