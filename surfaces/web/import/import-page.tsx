/** From a file to its rows: where it comes from, what it is, what only a person can say, and every line with what becomes of it. */
import {
  bestSheet,
  decided,
  hereOf,
  KINDS,
  type Kind,
  proposed,
  type TheirSheet,
  understand,
} from '@stillstand/campaign/import';
import { wordsByColumn } from '@stillstand/published/vocabularies';
import { useEffect, useMemo, useRef, useState } from 'react';
import { Button, counted, Dialog, Field, Plate, useUnsaved } from '../parts/index.ts';
import { useStore } from '../store/index.ts';
import { addProposal, undoWords } from './add-proposal.ts';
import { Asked } from './asked.tsx';
import { type Corrections, placeOf, withCorrections } from './corrected.ts';
import { useFocusKept } from './focus-kept.ts';
import { KIND_WORDS } from './kind-words.ts';
import { type Chosen, forget, leave, leftOff } from './left-off.ts';
import { LinesLeftOut } from './lines-left-out.tsx';
import { remember, remembered } from './remembered.ts';
import { RowsToAdd } from './rows-to-add.tsx';
import { type Read, Source } from './source.tsx';
import { TheirColumns } from './their-columns.tsx';
import './import-page.css';

const KNOWN = { remembered, vocabulary: wordsByColumn };

export function ImportPage({ as, onDone }: { as?: Kind | undefined; onDone: () => void }) {
  const { id } = useStore();
  const [theirs, setTheirs] = useState<Read | null>(() => leftOff(id, as)?.theirs ?? null);
  const sheet = useMemo(() => (theirs === null ? null : bestSheet(theirs, as)), [theirs, as]);
  return (
    <div className="import">
      <header>
        <h2>Import a table</h2>
        <Button kind="bare" mark="cross" aria-label="Leave the import" onClick={onDone} />
      </header>
      {theirs === null || sheet === null ? (
        <>
          {theirs === null ? null : <Refused theirs={theirs} />}
          <Source onTable={setTheirs} />
        </>
      ) : (
        <OneTable
          key={theirs.name}
          theirs={theirs}
          first={sheet}
          as={as}
          onOther={() => setTheirs(null)}
          onDone={onDone}
        />
      )}
    </div>
  );
}

function Refused({ theirs }: { theirs: Read }) {
  return (
    <Plate state="danger" word={`${theirs.name} was not imported`}>
      {theirs.problems.length === 0 ? <p>No line in it names columns. Nothing was changed.</p> : null}
      {theirs.problems.map((p) => (
        <p key={`${p.code} ${p.found}`}>
          Found {p.found === '' ? 'nothing in it' : p.found}; expected {p.expected}. {p.fix}
        </p>
      ))}
    </Plate>
  );
}

const NONE: Corrections = new Map();

function chosen(sheet: TheirSheet, as: Kind | undefined): Chosen | null {
  const understood = understand(sheet, { ...KNOWN, ...(as === undefined ? {} : { as }) });
  return understood === null ? null : { sheet, ...understood };
}

/** Among dates come slices with lead-210 and ages as curves of probability: they date too, and are no dates. */
function likelier(sheet: TheirSheet, as: Kind | undefined): Kind | undefined {
  const own = as === 'dates' ? understand(sheet, KNOWN)?.mapping.as : undefined;
  return own === 'lead-profiles' || own === 'age-densities' ? own : as;
}

function OneTable({
  theirs,
  first,
  as,
  onOther,
  onDone,
}: {
  theirs: Read;
  first: TheirSheet;
  as: Kind | undefined;
  onOther: () => void;
  onDone: () => void;
}) {
  const store = useStore();
  // what was decided is not to be decided twice
  useUnsaved(true);
  const [begun] = useState(() => {
    const before = leftOff(store.id, as);
    if (before?.theirs === theirs) return before;
    const sheetAt = theirs.sheets.indexOf(first);
    const read = chosen(first, likelier(first, as));
    return {
      theirs,
      sheetAt,
      kind: read?.mapping.as ?? as,
      chosen: new Map([[`${sheetAt} ${read?.mapping.as ?? as}`, read]]),
      corrections: new Map<number, Corrections>(),
    };
  });
  const [table, setTable] = useState(begun);
  useEffect(() => {
    if (table !== begun) leave(store.id, as, table);
  }, [store, as, table, begun]);
  const [isAsking, setAsking] = useState(false);
  const inside = useRef<HTMLDivElement>(null);
  useFocusKept(inside, table);
  const { sheetAt, kind } = table;
  const now = table.chosen.get(`${sheetAt} ${kind}`) ?? null;
  const corrections = table.corrections.get(sheetAt) ?? NONE;
  const corrected = [...table.corrections.values()].reduce((sum, { size }) => sum + size, 0);
  const document = store.document();
  const here = useMemo(() => hereOf(document), [document]);
  const sheet = useMemo(
    () => (now === null ? null : withCorrections(now.sheet, corrections)),
    [now, corrections],
  );
  const proposal = useMemo(
    () => (now === null || sheet === null ? null : proposed(here, sheet, now.mapping)),
    [here, sheet, now],
  );
  const read = (at: number, wanted: Kind | undefined): void => {
    const known = wanted === undefined ? undefined : table.chosen.get(`${at} ${wanted}`);
    const next = known ?? chosen(theirs.sheets[at]!, wanted);
    const of = next?.mapping.as ?? wanted;
    setTable({ ...table, sheetAt: at, kind: of, chosen: new Map(table.chosen).set(`${at} ${of}`, next) });
  };
  const decide = (where: string, word: string): void => {
    if (now === null) return;
    const made = decided(now.mapping, where, word);
    if (!('mapping' in made)) return;
    const next = { ...now, mapping: made.mapping };
    setTable({ ...table, chosen: new Map(table.chosen).set(`${sheetAt} ${kind}`, next) });
  };
  const correct = (line: number, column: number, text: string): void =>
    setTable({
      ...table,
      corrections: new Map(table.corrections).set(
        sheetAt,
        new Map(corrections).set(placeOf(line, column), text),
      ),
    });
  const other = (): void => {
    forget(store.id, as);
    onOther();
  };
  const left = proposal?.lines.filter(({ outcome }) => outcome === 'problem').length ?? 0;
  const count = proposal?.rows.length ?? 0;
  return (
    <div ref={inside}>
      <p className="acts">
        <b>{theirs.name}</b>
        <Button onClick={() => (corrected === 0 ? other() : setAsking(true))}>Choose another file</Button>
      </p>
      {isAsking ? (
        <Dialog
          title="Choose another file"
          onClose={() => setAsking(false)}
          foot={
            <>
              <Button kind="main" onClick={() => setAsking(false)}>
                Keep this table
              </Button>
              <Button onClick={other}>Discard corrections</Button>
            </>
          }
        >
          <p>
            {counted(corrected, 'cell')} of {theirs.name} {corrected === 1 ? 'was' : 'were'} corrected here.
            The file does not have {corrected === 1 ? 'the correction' : 'these corrections'}.
          </p>
        </Dialog>
      ) : null}
      <div className="fields">
        <Field
          name="What it is about"
          help={{ about: 'What one line of it is: one core, one layer, one date' }}
        >
          {(input) => (
            <select
              {...input}
              value={kind ?? ''}
              onChange={(event) => read(sheetAt, event.target.value as Kind)}
            >
              {kind === undefined ? <option value="">choose</option> : null}
              {KINDS.map((kind) => (
                <option key={kind} value={kind}>
                  {KIND_WORDS[kind]}
                </option>
              ))}
            </select>
          )}
        </Field>
        {theirs.sheets.length < 2 ? null : (
          <Field name="Sheet" help={{ about: 'Which sheet of the workbook; each is imported by itself' }}>
            {(input) => (
              <select {...input} value={sheetAt} onChange={(event) => read(Number(event.target.value), kind)}>
                {theirs.sheets.map(({ name }, i) => (
                  <option key={name} value={i}>
                    {name}
                  </option>
                ))}
              </select>
            )}
          </Field>
        )}
      </div>
      {now === null || sheet === null || proposal === null ? (
        <Plate state="caution" word="No line of headings found">
          <p>Expected a line that names the columns. Choose another sheet, or say what the table is about.</p>
        </Plate>
      ) : (
        <>
          <Asked decisions={proposal.decisions} onDecide={decide} />
          <TheirColumns sheet={sheet} mapping={now.mapping} onDecide={decide} />
          <LinesLeftOut sheet={sheet} mapping={now.mapping} proposal={proposal} onCorrect={correct} />
          <RowsToAdd proposal={proposal} />
          <p className="acts import-foot">
            <Button
              kind="main"
              mark="plus"
              disabled={count === 0 || store.readOnly}
              onClick={() => {
                if (!addProposal(store, proposal)) return;
                remember(now.key, now.mapping);
                forget(store.id, as);
                onDone();
              }}
            >
              {count === 1 ? 'Add 1 row' : `Add ${count} rows`}
            </Button>
            <Button onClick={onDone}>Cancel</Button>
            <span className="quiet">
              {left === 0 ? '' : `${counted(left, 'line')} ${left === 1 ? 'is' : 'are'} not added. `}
              {store.readOnly ? 'This campaign is read only.' : undoWords(proposal)}
            </span>
          </p>
        </>
      )}
    </div>
  );
}
