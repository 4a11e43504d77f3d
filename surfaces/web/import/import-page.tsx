/** From a file to its rows: where it comes from, what it is, what only a person can say, and every line with what becomes of it. */
import {
  bestSheet,
  decided,
  hereOf,
  KINDS,
  type Kind,
  type Mapping,
  proposed,
  type TheirSheet,
  type Theirs,
  understand,
} from '@stillstand/campaign/import';
import { sampleMaterials, sediments } from '@stillstand/published/vocabularies';
import { useMemo, useState } from 'react';
import { Button, Field, Plate, useUnsaved } from '../parts/index.ts';
import { useStore } from '../store/index.ts';
import { addProposal, undoWords } from './add-proposal.ts';
import { Asked } from './asked.tsx';
import { type Corrections, placeOf, withCorrections } from './corrected.ts';
import { KIND_WORDS } from './kind-words.ts';
import { LinesLeftOut } from './lines-left-out.tsx';
import { remember, remembered } from './remembered.ts';
import { RowsToAdd } from './rows-to-add.tsx';
import { type Read, Source } from './source.tsx';
import { TheirColumns } from './their-columns.tsx';
import './import-page.css';

const KNOWN = {
  remembered,
  vocabulary: {
    'units.sediment': sediments.map(({ word }) => word),
    'samples.material': sampleMaterials.map(({ word }) => word),
  },
};

export function ImportPage({ as, onDone }: { as?: Kind | undefined; onDone: () => void }) {
  const [theirs, setTheirs] = useState<Read | null>(null);
  const sheet = theirs === null ? null : bestSheet(theirs, as);
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
          Found {p.found}; expected {p.expected}. {p.fix}
        </p>
      ))}
    </Plate>
  );
}

interface Chosen {
  sheet: TheirSheet;
  mapping: Mapping;
  key: string;
}

function chosen(sheet: TheirSheet, as: Kind | undefined): Chosen | null {
  const understood = understand(sheet, { ...KNOWN, ...(as === undefined ? {} : { as }) });
  return understood === null ? null : { sheet, ...understood };
}

function OneTable({
  theirs,
  first,
  as,
  onOther,
  onDone,
}: {
  theirs: Theirs;
  first: TheirSheet;
  as: Kind | undefined;
  onOther: () => void;
  onDone: () => void;
}) {
  const store = useStore();
  // what was decided is not to be decided twice
  useUnsaved(true);
  const [now, setNow] = useState<Chosen | null>(() => chosen(first, as));
  const [sheetAt, setSheetAt] = useState(() => theirs.sheets.indexOf(first));
  const [corrections, setCorrections] = useState<Corrections>(new Map());
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
  const read = (at: number, kind: Kind | undefined): void => {
    setSheetAt(at);
    setCorrections(new Map());
    setNow(chosen(theirs.sheets[at]!, kind));
  };
  const decide = (where: string, word: string): void => {
    if (now === null) return;
    const made = decided(now.mapping, where, word);
    if ('mapping' in made) setNow({ ...now, mapping: made.mapping });
  };
  const count = proposal?.rows.length ?? 0;
  return (
    <>
      <p className="acts">
        <b>{theirs.name}</b>
        <Button onClick={onOther}>Choose another file</Button>
      </p>
      <div className="fields">
        <Field
          name="What it is about"
          help={{ about: 'What one line of it is: one core, one layer, one date' }}
        >
          {(input) => (
            <select
              {...input}
              value={now?.mapping.as ?? ''}
              onChange={(event) => read(sheetAt, event.target.value as Kind)}
            >
              {now === null ? <option value="">choose</option> : null}
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
              <select
                {...input}
                value={sheetAt}
                onChange={(event) => read(Number(event.target.value), now?.mapping.as)}
              >
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
          <LinesLeftOut
            sheet={sheet}
            mapping={now.mapping}
            proposal={proposal}
            onCorrect={(line, column, text) =>
              setCorrections((before) => new Map(before).set(placeOf(line, column), text))
            }
          />
          <RowsToAdd proposal={proposal} />
          <p className="acts import-foot">
            <Button
              kind="main"
              mark="plus"
              disabled={count === 0 || store.readOnly}
              onClick={() => {
                if (!addProposal(store, proposal)) return;
                remember(now.key, now.mapping);
                onDone();
              }}
            >
              {count === 1 ? 'Add 1 row' : `Add ${count} rows`}
            </Button>
            <Button onClick={onDone}>Cancel</Button>
            <span className="quiet">{undoWords(proposal)}</span>
          </p>
        </>
      )}
    </>
  );
}
