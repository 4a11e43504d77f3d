/**
 * Drill: the hole to scale, the four numbers, one next action, and whatever else is entered. Long because it is one
 * screen: what is open below (an entry, the book, what else may happen) and what the main action does are one state.
 */
import {
  type CableSaid,
  checksOf,
  dangersOf,
  giveAnswer,
  type HoleRead,
  type HoleState,
  holeBefore,
  openWords,
} from '@stillstand/campaign/holes';
import { traceId } from '@stillstand/campaign/results';
import { type HoleView, type HoleViewUnit, holeView } from '@stillstand/output/figures';
import { atLeast } from '@stillstand/science/base';
import { bore_mm, boreVolume_l, waterToAdd_l } from '@stillstand/science/rig';
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react';
import { DangerPlate } from '../../holes/index.ts';
import { ActionBar, Button, completeLength, Mark, type MarkName, useUnsaved } from '../../parts/index.ts';
import { deviceWords } from '../../store/index.ts';
import { amendForm, amendment } from './book/amend.ts';
import { type BookLine, bookOf } from './book/book.ts';
import { Book } from './book/book.tsx';
import { Decide } from './book/decide.tsx';
import { lift, moveReading, record, stroke } from './book/record.ts';
import { type Draft, draftOf, Entry, missing } from './forms/entry.tsx';
import type { EntryForm, FormName } from './forms/field.ts';
import { formFor } from './forms/forms.ts';
import { piecesSoFar } from './forms/pieces.ts';
import { type Happening, happened } from './forms/something-else.ts';
import { soundAlarm } from './leaves/alarm.ts';
import {
  Caution,
  LostNote,
  PiecesLaid,
  RunCautions,
  SiteCheck,
  SomethingElse,
  TapeTable,
  Troubles,
  Unanswered,
} from './leaves/leaves.tsx';
import { RunInHand } from './leaves/run-in-hand.tsx';
import { type ActionName, LOAD, nextAction } from './next/next-action.ts';
import { safetyFirst } from './next/safety-first.ts';
import { FourNumbers } from './numbers/four-numbers.tsx';
import { fourNumbers } from './numbers/numbers.ts';
import { nextPush, type Push, pushesOf, pushNumbers } from './numbers/push-hole.ts';
import { Drawing } from './picture/drawing.tsx';
import { PushDrawing } from './picture/push-drawing.tsx';
import { cableNow, tapes } from './tape/cable.ts';
import type { DrillStore } from './tape/decimal-points.ts';
import { m2 } from './tape/lengths.ts';
import './drill.css';

export interface DrillProps {
  store: DrillStore;
  now: HoleRead;
  theme: 'day' | 'night';
  /** Described layers, depths below the ground at the start. */
  units: readonly HoleViewUnit[];
  sampledTo_m: number | null;
  /** In-situ depth of a run, where the depth model knows it already. */
  runDepth: (run: string) => string | null;
  resuming: boolean;
  replaced: boolean;
  /** Today, `2024-03-05`: the day whose safety answers hold. */
  day: string;
  /** Now, ISO 8601 with offset. */
  time: () => string;
  onCrew: (by: string) => void;
  onHole: (hole: string) => void;
  onPlan: () => void;
  onSheet: () => void;
  /** The reading to open in its place. */
  row?: string | undefined;
}

/** Pieces are laid out one after the other until all that came up lies on its trays. */
const LAY_NEXT = { kind: 'lay next' } as const;

type Below =
  | typeof LAY_NEXT
  | { kind: 'form'; form: EntryForm; draft: Draft }
  | { kind: 'amend'; line: BookLine; form: EntryForm; draft: Draft; isUnchanged?: boolean }
  | { kind: 'decide'; line: BookLine }
  | { kind: 'check' }
  | { kind: 'else' }
  | { kind: 'book' }
  | null;

const FORM_OF: Partial<Record<ActionName, FormName>> = {
  add: 'add',
  tighten: 'tighten',
  drive: 'drive',
  fill: 'fill',
  sound: 'sound',
  water: 'water',
  mark: 'mark',
  run: 'run',
  lay_out: 'lay_out',
  pieces: 'pieces',
  push: 'push',
  pull: 'pull',
  account: 'lost',
  ground: 'ground',
  close: 'close',
  second_hole: 'second_hole',
};
const MARK_OF: Record<ActionName, MarkName> = {
  check: 'tick',
  add: 'plus',
  tighten: 'tick',
  drive: 'down',
  fill: 'water',
  sound: 'sound',
  water: 'water',
  mark: 'stroke',
  run: 'down',
  lift: 'up',
  lay_out: 'sample',
  pieces: 'sample',
  push: 'down',
  pull: 'up',
  account: 'note',
  ground: 'reading',
  close: 'tick',
  second_hole: 'plus',
  next_hole: 'on',
};
const TOOL_WORDS: Partial<Record<ActionName, string>> = {
  add: 'Joint',
  drive: 'Drive',
  fill: 'Fill',
  sound: 'Sounding',
  water: 'Water',
  mark: 'Tape',
  run: 'Run',
  pull: 'Pull',
};

export function Drill(props: DrillProps) {
  const { store, now, theme } = props;
  const hole = now.row.hole;
  const [below, setBelow] = useState<Below>(null);
  const [cable, setCable] = useState<Draft | null>(null);
  const [said, setSaid] = useState('');
  /** Why a photo was not kept. */
  const [lost, setLost] = useState('');
  const photo = useRef<HTMLInputElement>(null);
  const lines = useMemo(() => bookOf(store, now), [store, now]);
  const byString = now.row.method === 'string';
  const pushes = useMemo(() => (byString ? [] : pushesOf(store, now)), [store, byString, now]);
  const so = piecesSoFar(now, store);
  const checks = checksOf(store, props.day, hole);
  const dangers = now.ended ? [] : dangersOf(checks);
  const usual = byString
    ? nextAction(now, {
        resuming: props.resuming,
        replaced: props.replaced,
        unlaid: so !== null && so.laid.length === 0,
      })
    : nextPush(now, pushes);
  const isNew = byString ? !now.fold.account.some((i) => i.item === 'joint') : pushes.length === 0;
  const next = safetyFirst(usual, checks, now, { day: props.day, begins: isNew || props.resuming });
  const pulling = next.name === 'pull' || (below?.kind === 'form' && /^(?:pull|gear)$/.test(below.form.name));
  const numbers = useMemo(
    () => (byString ? fourNumbers(now, pulling) : pushNumbers(pushes, now)),
    [now, byString, pulling, pushes],
  );
  const tape = useMemo(() => tapes(now), [now]);
  const cableIs = useMemo(() => cableNow(now), [now]);
  const view = useMemo(
    () =>
      holeView({
        hole,
        now,
        units: props.units,
        sampled_to_m: props.sampledTo_m,
        sampler_length_m: now.sampler?.length_m ?? null,
        marks: now.run === null ? [] : drawnMarks(cableIs),
      }),
    [hole, now, props.units, props.sampledTo_m, cableIs],
  );

  // a new danger is also heard and felt
  const count = dangers.length + now.fold.findings.filter((f) => f.severity === 'danger').length;
  const heard = useRef({ hole, count });
  useEffect(() => {
    if (heard.current.hole === hole && count > heard.current.count) soundAlarm();
    heard.current = { hole, count };
  }, [hole, count]);

  // a reading asked for from elsewhere opens in its place
  const asked = useRef<string | null>(null);
  useEffect(() => {
    if (props.row === undefined || asked.current === props.row) return;
    asked.current = props.row;
    const line = lines.find((l) => l.versions.some((v) => v.row_id === props.row));
    if (line !== undefined) choose(line);
  });

  // on a phone the page is longer than the screen: what was opened begins under the distance left
  const opened = `${below?.kind ?? ''} ${below?.kind === 'form' ? below.form.name : ''} ${now.run?.run ?? ''}`;
  useEffect(() => {
    if (opened.trim() !== '') globalThis.scrollTo({ top: 0 });
  }, [opened]);

  // the run in hand keeps the cable's field open, whatever else happens
  const run = now.run;
  const cableForm = run === null ? null : formFor('cable', now, store);
  const cableDraft = cableForm === null ? null : (cable ?? draftOf(cableForm, now.units));

  const open = (form: EntryForm): void => setBelow({ kind: 'form', form, draft: draftOf(form, now.units) });
  const openForm = (name: FormName): void => open(formFor(name, now, store));
  const openCheck = (): void => setBelow({ kind: 'check' });
  const press = (name: ActionName): void => {
    if (name === 'check') openCheck();
    else if (name === 'lift') {
      lift(store, now);
      setCable(null);
    } else if (name === 'next_hole') props.onPlan();
    else {
      const form = FORM_OF[name];
      if (form !== undefined) openForm(form);
    }
  };
  /** Opens a line to be amended, on the value that was pressed; one whose amendments differ to be decided. */
  function choose(line: BookLine, column?: string): void {
    if (line.state === 'conflict') {
      setBelow({ kind: 'decide', line });
      return;
    }
    const form = amendForm(line, now, store);
    const pressed = form.fields.find((f) => f.column === column) ?? form.fields[0];
    setBelow({
      kind: 'amend',
      line,
      form,
      draft: { ...draftOf(form, now.units), at: pressed?.column ?? null, isWhole: true },
    });
  }
  // once the last piece is among the rows, the form of the next one knows where it begins
  useEffect(() => {
    if (below?.kind !== 'lay next') return;
    const left = so === null ? 0 : so.recovered_m - Math.max(0, ...so.laid.map((p) => p.bottom_m));
    if (left > 0.005) openForm('pieces');
    else leave();
  });
  const happen = (happening: Happening): void =>
    open(happened(formFor(happening.form, now, store), happening));
  const leave = (): void => {
    // the list is longer than the screen: what stands at the top of the page comes back into sight
    if (below?.kind === 'check') globalThis.scrollTo({ top: 0 });
    setBelow(null);
  };

  const complete = (form: EntryForm, draft: Draft): Record<string, string> =>
    Object.fromEntries(
      form.fields.map((f) => {
        const text = draft.values[f.column] ?? '';
        return [
          f.column,
          f.kind === 'length'
            ? completeLength({ text, unit: draft.units[f.column] ?? now.units.tape })
            : text,
        ];
      }),
    );

  function save(): void {
    if (below?.kind === 'form') {
      const { form, draft } = below;
      const values = complete(form, draft);
      if (form.name === 'crew') {
        props.onCrew(values['by'] ?? '');
        setSaid(`Recorder from here: ${values['by'] ?? ''}.`);
      } else {
        const rows = record(store, now, form, values, props.time());
        // Refused: what was typed stays, and the store says why.
        if (rows === null) return;
        setSaid(`${form.title}: recorded.`);
        if (form.name === 'second_hole') props.onHole(values['hole'] ?? hole);
        const goesOn = form.name === 'pieces' ? rows.length > 0 : values['laid_out'] === 'piece by piece';
        if (goesOn) {
          setBelow(LAY_NEXT);
          return;
        }
      }
      leave();
    } else if (below?.kind === 'amend') {
      const cells = amendment(below.line, complete(below.form, below.draft));
      if (cells === null) {
        setBelow({ ...below, isUnchanged: true });
        return;
      }
      if (store.amend(below.line.table, below.line.row_id, cells) === null) return;
      setSaid(`${below.line.name}: amended.`);
      leave();
    } else if (cableForm !== null && cableDraft !== null) {
      if (record(store, now, cableForm, complete(cableForm, cableDraft), props.time()) !== null)
        setCable(null);
    }
  }

  const pictured = photoOf(now, pushes);
  const photos = store
    .rows('photos')
    .filter((r) => r.cells['hole'] === hole && (r.cells['run'] ?? '') === (pictured.run ?? '')).length;
  const takePhoto = async (file: File): Promise<void> => {
    try {
      const path = await store.addFile(new Uint8Array(await file.arrayBuffer()), file.type || 'image/jpeg');
      store.addRow('photos', { hole, file: path, ...pictured });
      setLost('');
      setSaid('Photo kept.');
    } catch (error) {
      setLost(deviceWords(error));
    }
  };

  // what the site check left open stays in sight, and on the main action until something is in the ground
  const unanswered = now.ended || next.name === 'check' ? null : openWords(checks);
  // an older reading is doubted by what stood before it, not by what came since
  const amended = below?.kind === 'amend' ? below.line.seq : null;
  const then = useMemo(() => (amended === null ? now : holeBefore(now, amended)), [now, amended]);
  const typing = below?.kind === 'form' || below?.kind === 'amend';
  const lacks = below?.kind === 'form' || below?.kind === 'amend' ? missing(below.form, below.draft) : '';
  const cableTyped =
    below === null &&
    cableForm !== null &&
    cableDraft !== null &&
    (cableDraft.values['end_mark'] ?? '').trim() !== '';

  useUnsaved(
    cableTyped ||
      ((below?.kind === 'form' || below?.kind === 'amend') &&
        below.form.fields.some((f) => (below.draft.values[f.column] ?? '') !== (f.initial ?? ''))),
  );

  return (
    <div
      className="drill"
      data-below={below?.kind ?? (run === null ? 'idle' : 'run')}
      data-typing={typing || run !== null}
    >
      {byString ? (
        <Drawing view={view} theme={theme} hole={hole} />
      ) : (
        <PushDrawing pushes={pushes} hole={hole} />
      )}
      <FourNumbers
        numbers={numbers}
        onBasis={openForm}
        trace={byString && now.readings.length > 0 ? traceId.hole(hole).rig : null}
        plate={
          // the site check carries its own
          dangers.length === 0 || below?.kind === 'check' ? null : (
            <DangerPlate
              hazards={dangers.map((check) => ({ check }))}
              day={props.day}
              onAnswer={store.readOnly ? undefined : openCheck}
              opensAll
            />
          )
        }
      />

      <nav className="drill-tools" aria-label="other entries">
        {run === null ? null : (
          <button
            type="button"
            className="stroke"
            onClick={() => stroke(store, now)}
            disabled={store.readOnly}
          >
            <Mark name="stroke" />
            Stroke <strong>{run.strokes ?? 0}</strong> +1
          </button>
        )}
        <div className="rest">
          {(byString ? toolsOf(now, next.name, tape.length > 1) : []).map((name) => (
            <button
              key={name}
              type="button"
              onClick={() => openForm(FORM_OF[name]!)}
              disabled={store.readOnly}
            >
              <Mark name={MARK_OF[name]} />
              {TOOL_WORDS[name]}
            </button>
          ))}
          <button type="button" onClick={() => photo.current?.click()} disabled={store.readOnly}>
            <Mark name="photo" />
            Photo{photos === 0 ? null : <strong>{photos}</strong>}
          </button>
          <button
            type="button"
            aria-pressed={below?.kind === 'book'}
            onClick={() => setBelow(below?.kind === 'book' ? null : { kind: 'book' })}
          >
            <Mark name="amended" />
            Log
          </button>
        </div>
        <input
          ref={photo}
          className="unseen"
          tabIndex={-1}
          type="file"
          accept="image/*"
          capture="environment"
          aria-label="Take a photo"
          onChange={(event) => {
            const file = event.target.files?.[0];
            if (file !== undefined) void takePhoto(file);
            event.target.value = '';
          }}
        />
      </nav>

      {lost === '' ? null : (
        <p className="photo-lost" role="alert">
          <Mark name="stop" size={20} /> Photo not saved ({lost}). Free up storage, then take it again.
        </p>
      )}

      <div className="below">
        {below?.kind === 'form' ? (
          <Entry
            key={below.form.name}
            form={below.form}
            draft={below.draft}
            now={now}
            onDraft={(draft) => setBelow({ ...below, draft })}
            onEnter={() => (missing(below.form, below.draft) === '' ? save() : undefined)}
            onLeave={leave}
            above={
              below.form.name === 'pieces' ? (
                <PiecesLaid so={so} onSkip={leave} />
              ) : (
                aboveOf(below.form.name, { tape, missing: cableIs.missing, now })
              )
            }
            aside={asideOf(below.form.name)}
          />
        ) : below?.kind === 'amend' ? (
          <Entry
            key={below.line.root_id}
            form={below.form}
            draft={below.draft}
            now={then}
            was={Object.fromEntries(below.form.fields.map((f) => [f.column, f.initial ?? '']))}
            onDraft={(draft) => setBelow({ ...below, draft, isUnchanged: false })}
            onEnter={() => (missing(below.form, below.draft) === '' ? save() : undefined)}
            onLeave={leave}
            above={
              below.line.findings.some((f) => f.code === 'seq-twice') ? (
                <InTurn
                  onMove={(to) => {
                    const seqs = lines.map((l) => l.seq);
                    if (moveReading(store, below.line, seqs, to) === null) return;
                    setSaid(`${below.line.name}: written again ${to} the other.`);
                    leave();
                  }}
                />
              ) : null
            }
            below={
              <Withdraw
                line={below.line}
                onWithdraw={() => {
                  const { table, root_id, name, state } = below.line;
                  const isBack = state === 'withdrawn';
                  if ((isBack ? store.restore(table, root_id) : store.withdraw(table, root_id)) === null)
                    return;
                  setSaid(`${name}: ${isBack ? 'restored' : 'withdrawn, kept in the log'}.`);
                  leave();
                }}
              />
            }
          />
        ) : below?.kind === 'decide' ? (
          <Decide
            line={lines.find((l) => l.root_id === below.line.root_id) ?? below.line}
            disabled={store.readOnly}
            onDecide={(choice) => {
              if (store.decide(below.line.table, below.line.root_id, choice) === null) return;
              setSaid(`${below.line.name}: decided.`);
              leave();
            }}
            onLeave={leave}
          />
        ) : below?.kind === 'check' ? (
          <SiteCheck
            {...{ checks, hole }}
            day={props.day}
            disabled={store.readOnly}
            onAnswer={(check, answer) => giveAnswer(store, check, answer, props.day, hole)}
            onLeave={leave}
          />
        ) : below?.kind === 'else' ? (
          <SomethingElse now={now} onHappen={happen} onLeave={leave} />
        ) : below?.kind === 'book' ? (
          <div className="book-whole">
            <Book
              lines={lines}
              chosen={null}
              store={store}
              onChoose={choose}
              title="Field log"
              note="in the order of the readings; select a value to amend it"
            />
            <p className="book-tools">
              <Button mark="save" onClick={() => print()}>
                Print a blank sheet
              </Button>
              <Button mark="plus" onClick={props.onSheet}>
                Type in a sheet
              </Button>
            </p>
          </div>
        ) : run !== null && cableForm !== null && cableDraft !== null ? (
          <RunInHand
            {...{ now, lines, cableForm, cableDraft }}
            missing={cableIs.missing}
            depth={props.runDepth(run.run)}
            onDraft={setCable}
            onEnter={() => (cableTyped && missing(cableForm, cableDraft) === '' ? save() : undefined)}
            onAmend={choose}
          />
        ) : (
          <>
            <Book
              lines={lines}
              chosen={null}
              store={store}
              onChoose={choose}
              title="Field log"
              note={lines.length > 4 ? `${lines.length} readings` : ''}
            />
            <div className="pad aside">
              <LostNote now={now} />
              <Troubles lines={lines} problems={now.problems} onChoose={choose} />
              {next.name === 'mark' || next.name === 'run' ? <TapeTable tape={tape} /> : null}
              {next.or.length === 0 ||
              store.readOnly ||
              next.name === 'mark' ||
              next.name === 'run' ? null : (
                <fieldset className="choices">
                  <legend>
                    {next.held === null ? 'or' : 'held by the danger; what happened can be recorded'}
                  </legend>
                  {next.or.map((name, i) => (
                    <button
                      key={name}
                      type="button"
                      data-held={next.held !== null}
                      onClick={() => press(name)}
                    >
                      <Mark name={MARK_OF[name]} size={20} />
                      {i === 0 && next.held !== null ? next.held : (OR_WORDS[name] ?? name)}
                    </button>
                  ))}
                </fieldset>
              )}
              {now.ended || store.readOnly ? null : <Unanswered checks={checks} onOpen={openCheck} />}
              {next.name === 'pull' ? <Caution of="line_pull" /> : null}
            </div>
          </>
        )}
      </div>

      <div className="act" data-urgent={next.urgent && !typing} data-hazard={dangers.length > 0}>
        {typing ? (
          <ActionBar
            mark={below.kind === 'amend' ? 'amended' : 'tick'}
            does={below.form.verb}
            says={below.form.caution ?? undefined}
            then={
              lacks !== '' ? (
                `needs ${lacks}`
              ) : below.kind === 'amend' && below.isUnchanged ? (
                <b role="alert">Nothing is changed. Type the right value, or close the form.</b>
              ) : undefined
            }
            disabled={lacks !== '' || store.readOnly}
            onClick={save}
          />
        ) : below?.kind === 'check' ? (
          <ActionBar
            mark="tick"
            does="Close site check"
            says={dangers[0] === undefined ? undefined : `${dangers[0].hazard}.`}
            then={openShort(openWords(checks)) ?? 'all answered'}
            onClick={leave}
          />
        ) : cableTyped ? (
          <ActionBar
            mark="tick"
            does="Record the cable"
            says={LOAD}
            then={missing(cableForm, cableDraft) === '' ? 'then read on, or lift' : 'needs a length'}
            disabled={missing(cableForm, cableDraft) !== '' || store.readOnly}
            onClick={save}
          />
        ) : (
          <ActionBar
            mark={next.held === null ? MARK_OF[next.name] : 'stop'}
            does={next.title}
            says={next.caution ?? undefined}
            then={
              <>
                {next.held === null ? next.why : `no, ${next.why}`}
                <br />
                {isNew && unanswered !== null
                  ? openShort(unanswered)
                  : next.then === ''
                    ? null
                    : /^(then|in|read|with|or|no|fill while|lift at)\b/.test(next.then)
                      ? next.then
                      : `then ${next.then}`}
              </>
            }
            disabled={store.readOnly}
            onClick={() => press(next.name)}
          />
        )}
        <button
          type="button"
          className="else"
          aria-expanded={below?.kind === 'else'}
          disabled={store.readOnly}
          onClick={() => setBelow(below?.kind === 'else' ? null : { kind: 'else' })}
        >
          Other event
        </button>
      </div>
      <p className="unseen" role="status">
        {said}
      </p>
    </div>
  );
}

/** Only tape that was said to be on the cable is drawn on it; null: nobody has said so. */
function drawnMarks({ marks }: CableSaid): HoleView['marks'] | null {
  return (
    marks?.made.map(({ label, tip_m }) => ({
      label,
      tip_m,
      is: label === 'stop' || label === 'sediment' ? label : ('between' as const),
    })) ?? null
  );
}

/** The first two open questions by name, and how many more: what the bar has room for. */
function openShort(open: string | null): string | null {
  if (open === null) return null;
  const names = open.split('; ');
  const more = names.length - 2;
  return `not answered: ${names.slice(0, 2).join('; ')}${more > 0 ? `; ${more} more` : ''}`;
}

/** What a picture taken now is of: the last run or push, else the hole. */
function photoOf(now: HoleState, pushes: readonly Push[]): { depth_basis?: string; run?: string } {
  const run = now.readings.findLast((r) => r.kind === 'run');
  if (run?.kind === 'run') return { depth_basis: 'run', run: run.run };
  const push = pushes.at(-1);
  return push === undefined ? {} : { depth_basis: 'push', run: push.label };
}

const OR_WORDS: Partial<Record<ActionName, string>> = {
  check: 'Site check',
  add: 'Add a joint',
  drive: 'Drive',
  fill: 'Fill',
  tighten: 'Confirm tight',
  sound: 'Take sounding',
  water: 'Measure water levels',
  mark: 'Mark the cable',
  run: 'Run the sampler',
  pull: 'Pull the string',
  account: 'String lost',
  pieces: 'Lay out in pieces',
  ground: 'Measure ground level',
  lay_out: 'Lay out the core',
  push: 'Record a push',
  close: 'End hole',
  second_hole: 'Start replacement hole',
  next_hole: 'Plan the next hole',
};

/** What is always within one press, whatever is suggested: never more than a row of them. */
function toolsOf(now: HoleState, next: ActionName, canRun: boolean): ActionName[] {
  if (now.ended) return [];
  if (now.run !== null) return ['sound', 'water'];
  if (now.string.length === 0) return (['add', 'sound'] as const).filter((a) => a !== next);
  const usual: ActionName[] = ['sound', 'fill', 'drive', 'add', ...(canRun ? (['run'] as const) : [])];
  return usual.filter((a) => a !== next);
}

function aboveOf(
  form: FormName,
  {
    tape,
    missing,
    now,
  }: {
    tape: ReturnType<typeof tapes>;
    missing: readonly string[];
    now: HoleState;
  },
): ReactNode {
  if (form === 'mark') return <TapeTable tape={tape} />;
  if (form === 'fill') return <p className="reminder">{fillWords(now)}</p>;
  if (form === 'run') {
    return (
      <>
        <RunCautions missing={missing} />
        {tape.length > 1 ? <p className="reminder">Stop mark at {tape.at(-1)!.said}.</p> : null}
      </>
    );
  }
  if (form === 'close' || form === 'lost') return <LostNote now={now} />;
  return null;
}

/** The whole of a caution, beside the keys: what it says belongs to the numbers on the other leaf. */
function asideOf(form: FormName): ReactNode {
  if (form === 'mark') return <Caution of="cable" />;
  if (form === 'pull' || form === 'gear') return <Caution of="line_pull" />;
  if (form === 'waters') return <Caution of="water" />;
  return null;
}

/** How much water it takes, where the bore of the pipe is known. */
function fillWords(now: HoleState): string {
  if (now.pipe === null) return 'Fill to the brim, and watch that it stays.';
  const bore = bore_mm(now.pipe);
  const inside = now.water.inside_m;
  const stickUp = now.last?.stick_up_m ?? null;
  const each = `${atLeast(boreVolume_l(bore, 1), 1).toFixed(1)} L a metre of pipe`;
  if (inside === null || stickUp === null) return each;
  return `At least ${atLeast(waterToAdd_l(bore, inside + stickUp, 0), 0).toFixed(0)} L to the brim; ${each}`;
}

/** Two readings with one place in the order, from two devices: which of them came first. */
function InTurn({ onMove }: { onMove: (to: 'before' | 'after') => void }) {
  return (
    <div className="in-turn">
      <p>Two devices wrote at once. This one came</p>
      <Button onClick={() => onMove('before')}>before the other</Button>
      <Button onClick={() => onMove('after')}>after it</Button>
    </div>
  );
}

function Withdraw({ line, onWithdraw }: { line: BookLine; onWithdraw: () => void }) {
  return (
    <p className="withdraw">
      {line.findings
        .filter((f) => f.severity !== 'note' && f.code !== 'seq-twice')
        .map((f) => (
          <span key={f.code} className={f.severity === 'danger' ? 'danger' : 'caution'}>
            <Mark name={f.severity === 'danger' ? 'stop' : 'close'} size={16} /> Found {f.found}; expected{' '}
            {f.expected}. {f.fix}
          </span>
        ))}
      <Button mark={line.state === 'withdrawn' ? 'undo' : 'rejected'} onClick={onWithdraw}>
        {line.state === 'withdrawn' ? 'Restore reading' : 'Withdraw reading'}
      </Button>
      <span className="quiet">
        {line.state === 'withdrawn'
          ? `Withdrawn; ${m2(line.seq).replace('.00', '')} in the order.`
          : 'It stays in the field log, struck through.'}
      </span>
    </p>
  );
}
