/** A laboratory's table: brought, its columns named, every row looked at with what is wrong in it, then written at once. */
import { bestSheet, type TheirSheet } from '@stillstand/campaign/import';
import { sampleMaterials } from '@stillstand/published/vocabularies';
import { useMemo, useState } from 'react';
import { Button, counted, Field, Mark, Plate, useUnsaved } from '../../../parts/index.ts';
import { type DocRow, useStore } from '../../../store/index.ts';
import { BringSource, type Brought } from './bring-source.tsx';
import { type BroughtRow, broughtRows } from './brought-row.ts';
import { FILLED, type Filled, type Mapping, readDates } from './mapping.ts';
import { MappingField, nameOf } from './mapping-field.tsx';
import { PreviewTable } from './preview-table.tsx';
import './bring-page.css';

export function BringPage({ onDone }: { onDone: () => void }) {
  const [table, setTable] = useState<Brought | null>(null);
  return (
    <div className="bring">
      <h2>Import lab results</h2>
      {table === null || table.sheets.length === 0 ? (
        <>
          {table === null ? null : <Refusals table={table} />}
          <BringSource onTable={setTable} />
          <p className="acts">
            <Button onClick={onDone}>Back to the dates</Button>
          </p>
        </>
      ) : (
        <BroughtPage table={table} onOther={() => setTable(null)} onDone={onDone} />
      )}
    </div>
  );
}

function Refusals({ table }: { table: Brought }) {
  return (
    <Plate state="danger" word={`${table.name} was not imported`}>
      {table.problems.length === 0 ? <p>It is empty.</p> : null}
      {table.problems.map((p) => (
        <p key={p.code}>
          Found {p.found}; expected {p.expected}. {p.fix}
        </p>
      ))}
    </Plate>
  );
}

function BroughtPage({
  table,
  onOther,
  onDone,
}: {
  table: Brought;
  onOther: () => void;
  onDone: () => void;
}) {
  const store = useStore();
  // Which column is which is not to be chosen twice.
  useUnsaved(true);
  const [sheet, setSheet] = useState(() => bestSheet(table, 'dates')!);
  const [theirs, setTheirs] = useState(() => readDates(sheet));
  const { headings } = theirs;
  const [mapping, setMapping] = useState<Mapping>(theirs.mapping);
  const [fixed, setFixed] = useState<Partial<Record<Filled, string>>>(() => ({
    method: 'radiocarbon',
    calibration_curve: '',
  }));
  const [keepRest, setKeepRest] = useState(true);
  const [mended, setMended] = useState<ReadonlyMap<number, Readonly<Record<string, string>>>>(new Map());
  const [asked, setAsked] = useState<ReadonlyMap<number, boolean>>(new Map());
  const samples = store.rows('samples');
  const determinations = store.rows('determinations');
  const here = useMemo(() => {
    const labels = (rows: readonly DocRow[], column: string): string[] =>
      rows.map((r) => r.cells[column]?.trim() ?? '').filter((label) => label !== '');
    const carbonOf = new Map(sampleMaterials.map((m) => [m.word, m.carbon]));
    const carbon = new Map(
      samples.flatMap((r) => {
        const from = carbonOf.get(r.cells['material']?.trim() ?? '') ?? null;
        return from === null ? [] : [[r.cells['sample']?.trim() ?? '', from] as const];
      }),
    );
    return {
      samples: labels(samples, 'sample'),
      carbon,
      lab_codes: new Set(labels(determinations, 'lab_code')),
    };
  }, [samples, determinations]);
  const rows = broughtRows(
    headings,
    theirs.lines,
    { mapping, fixed, keepRest, decimal_comma: theirs.decimal_comma, mended },
    here,
  );
  const isTaken = (row: BroughtRow): boolean => asked.get(row.line) ?? row.known === null;
  const taken = rows.filter(isTaken);
  const bad = taken.filter((row) => Object.keys(row.faults).length > 0);
  const shown = FILLED.filter(
    (column) =>
      column !== 'note' &&
      rows.some((row) => (row.cells[column] ?? '') !== '' || row.faults[column] !== undefined),
  );
  const read = (chosen: TheirSheet, line?: number): void => {
    const read = readDates(chosen, line);
    setSheet(chosen);
    setTheirs(read);
    setMapping(read.mapping);
    setMended(new Map());
    setAsked(new Map());
  };
  const write = (): void => {
    const isDone = store.together(() => {
      for (const row of taken) store.addRow('determinations', { ...row.cells, status: 'accepted' });
    });
    if (isDone) onDone();
  };
  return (
    <>
      <p className="acts">
        <b>{table.name}</b>
        <span className="quiet">{counted(rows.length, 'row')} below the headings</span>
        <Button onClick={onOther}>Choose another</Button>
      </p>
      <div className="fields">
        {table.sheets.length < 2 ? null : (
          <Field name="Sheet" help={{ about: 'Which sheet of the workbook has the results' }}>
            {(input) => (
              <select
                {...input}
                value={table.sheets.indexOf(sheet)}
                onChange={(event) => read(table.sheets[Number(event.target.value)]!)}
              >
                {table.sheets.map((s, i) => (
                  <option key={s.name} value={i}>
                    {s.name}
                  </option>
                ))}
              </select>
            )}
          </Field>
        )}
        <Field
          name="Headings stand in line"
          help={{ about: 'The line that names the columns; results stand below it, letterheads above' }}
        >
          {(input) => (
            <select
              {...input}
              value={theirs.headingLine}
              onChange={(event) => read(sheet, Number(event.target.value))}
            >
              {sheet.lines.slice(0, 40).map((line) => (
                <option key={line.line} value={line.line}>
                  {line.line}: {line.cells.filter(Boolean).join(', ').slice(0, 60)}
                </option>
              ))}
            </select>
          )}
        </Field>
      </div>

      <fieldset className="mapping">
        <legend>Which of their columns is which</legend>
        <div className="fields">
          {FILLED.map((column) => (
            <MappingField
              key={column}
              column={column}
              headings={headings}
              at={mapping[column]}
              fixed={fixed[column]}
              onMap={(at) =>
                setMapping((before) => {
                  const { [column]: _, ...rest } = before;
                  return at === null ? rest : { ...rest, [column]: at };
                })
              }
              onFix={(word) => setFixed((before) => ({ ...before, [column]: word }))}
            />
          ))}
        </div>
        <label className="keep-rest">
          <input type="checkbox" checked={keepRest} onChange={(event) => setKeepRest(event.target.checked)} />
          Keep their other columns in the note
        </label>
      </fieldset>

      <PreviewTable
        rows={rows}
        columns={shown}
        nameOf={nameOf}
        samples={here.samples}
        isTaken={isTaken}
        onTake={(line, take) => setAsked((before) => new Map(before).set(line, take))}
        onMend={(line, column, typed) =>
          setMended((before) => new Map(before).set(line, { ...before.get(line), [column]: typed }))
        }
      />
      <div className="bring-foot">
        {bad.length === 0 ? null : (
          <p className="caution-line">
            <Mark name="close" size={18} />
            {counted(bad.length, 'row is', 'rows are')} not fit to use yet. Taken as they stand they are kept
            as typed, and listed as problems until they are corrected.
          </p>
        )}
        <p className="acts">
          <Button kind="main" mark="plus" disabled={taken.length === 0} onClick={write}>
            Add {counted(taken.length, 'date')}
          </Button>
          <Button onClick={onDone}>Cancel</Button>
          <span className="quiet">
            {rows.length === taken.length ? '' : `${counted(rows.length - taken.length, 'row')} left out. `}
            Undo takes them all back.
          </span>
        </p>
      </div>
    </>
  );
}
