/** Holes to be planned pasted as a list, a line each: what can be read is written down, the rest stays in the text. */
import { bareUnit } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Button, counted, Field, FormDialog, labelsFor, Mark } from '../../../parts/index.ts';
import { otherPositions, type PositionCells, useGrid } from '../../../positions/index.ts';
import { addWithNamed, newRows, newRowWords } from '../../../shell/index.ts';
import { useStore } from '../../../store/index.ts';
import { headingLine, type PlaceLine, readPlaceLines, unreadHeadings } from './place-lines.ts';
import './place-list.css';

const EXAMPLE = 'H1  46° 24.66′ S 121° 18.78′ W  target 12 m\nH2  46° 24.71′ S 121° 18.70′ W  target 9 m';

/** The button that asks for the list, and its dialog; `site` is that of lines that name none. */
export function PlaceList({ site: usualSite }: { site: string }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <Button mark="plus" onClick={() => setOpen(true)}>
        Paste planned holes
      </Button>
      {isOpen ? <ListDialog usualSite={usualSite} onClose={() => setOpen(false)} /> : null}
    </>
  );
}

function ListDialog({ usualSite, onClose }: { usualSite: string; onClose: () => void }) {
  const store = useStore();
  const [text, setText] = useState('');
  const [site, setSite] = useState(usualSite);
  const [unit, setUnit] = useState<string>(bareUnit(store.setting('length_unit')) ?? '');
  const [chosen, setChosen] = useState<Readonly<Record<string, PositionCells>>>({});
  const [written, setWritten] = useState(0);
  const grid = useGrid(store.setting('position_grid') ?? '');
  const lines = readPlaceLines(text, {
    unit: bareUnit(unit),
    others: otherPositions(store.rows, null),
    grid,
    taken: new Set(store.rows('holes').map(({ cells }) => cells['hole']?.trim() ?? '')),
    chosen,
  });
  const good = lines.filter(({ faults }) => faults.length === 0);
  const bad = lines.filter(({ faults }) => faults.length > 0);
  const unread = unreadHeadings(text);
  const rows = good.map((line) => cellsOf(line, site.trim()));
  const write = (): void => {
    if (rows.length === 0 || !addWithNamed(store, 'holes', rows)) return;
    if (bad.length === 0) onClose();
    setWritten(rows.length);
    const heading = headingLine(text);
    setText([...(heading === null ? [] : [heading]), ...bad.map((line) => line.text)].join('\n'));
  };
  return (
    <FormDialog
      title="Paste planned holes"
      action={good.length === 0 ? 'Add holes' : `Add ${counted(good.length, 'hole')}`}
      isReady={good.length > 0}
      says={
        <>
          {newRows('holes', rows, store.rows).map((named) => (
            <p key={`${named.table} ${named.label}`} className="says-why">
              {newRowWords(named)}
            </p>
          ))}
          {unread.length === 0 ? null : (
            <p className="says-why">
              Not read: {unread.length === 1 ? 'column' : 'columns'} {unread.join(', ')}. Enter them with the
              hole.
            </p>
          )}
          {bad.length === 0 ? null : (
            <p className="says-why">
              {counted(bad.length, 'line')} cannot be used yet and {bad.length === 1 ? 'stays' : 'stay'} in
              the text.
            </p>
          )}
        </>
      }
      below={
        <>
          {written === 0 ? null : (
            <p role="status">{counted(written, 'hole')} added. The lines left need a correction.</p>
          )}
          <ul className="place-lines" aria-label="What was read">
            {lines.map((line) => (
              <LineSaid
                key={`${line.line} ${line.text}`}
                line={line}
                onChoose={(cells) => setChosen((before) => ({ ...before, [line.text]: cells }))}
              />
            ))}
          </ul>
        </>
      }
      onSubmit={write}
      onClose={onClose}
    >
      <Field
        name="List of holes"
        help={{
          about:
            'One hole a line: label, position, then target depth and site where you have them. Positions as in the field of one hole. Columns of a spreadsheet may be pasted, with headings or without',
          source: 'No height is taken from it',
        }}
      >
        {(input) => (
          <textarea
            {...input}
            className="tide-lines"
            rows={8}
            value={text}
            placeholder={EXAMPLE}
            autoComplete="off"
            autoCapitalize="off"
            spellCheck={false}
            onChange={(event) => setText(event.target.value)}
          />
        )}
      </Field>
      <Field name="Site" help={{ about: 'For lines that name none; a new site is added with the holes' }}>
        {(input) => (
          <>
            <input
              {...input}
              list="place-list-sites"
              value={site}
              onChange={(event) => setSite(event.target.value)}
            />
            <datalist id="place-list-sites">
              {labelsFor('holes', 'site', store.rows)?.map((label) => (
                <option key={label} value={label} />
              ))}
            </datalist>
          </>
        )}
      </Field>
      <Field
        name="Depths without a unit"
        help={{ about: 'Unit of target depths that have none. “Not accepted” asks for the unit in the line' }}
      >
        {(input) => (
          <select {...input} value={unit} onChange={(event) => setUnit(event.target.value)}>
            <option value="">not accepted</option>
            <option value="m">metres</option>
            <option value="cm">centimetres</option>
            <option value="ft">feet</option>
          </select>
        )}
      </Field>
    </FormDialog>
  );
}

function cellsOf({ label, target, site, said }: PlaceLine, usualSite: string): Record<string, string> {
  const planned = { hole: label, method: 'string', state: 'planned', site: site || usualSite };
  return { ...planned, ...said.cells, target_depth: target };
}

function LineSaid({ line, onChoose }: { line: PlaceLine; onChoose: (cells: PositionCells) => void }) {
  const { said, faults, target, site } = line;
  const name = `Line ${line.line}${line.label === '' ? '' : `, ${line.label}`}`;
  const more = [...(target === '' ? [] : [`target ${target}`]), ...(site === '' ? [] : [`site ${site}`])];
  return (
    <li>
      <b>{name}</b>
      {faults.map((fault) => (
        <p key={fault} className="fault" role="status">
          <Mark name="stop" size={18} label="not used" /> {fault}
        </p>
      ))}
      {said.words === null ? null : (
        <p className="quiet">
          {said.words}
          {more.length === 0 ? '' : ` ${more.join('; ')}.`}
        </p>
      )}
      {said.cautions.map((caution) => (
        <p key={caution} className="doubt" role="status">
          <Mark name="close" size={18} label="doubtful" /> {caution}
        </p>
      ))}
      {said.instead.map((other) => (
        <Button key={other.words} onClick={() => onChoose(other.cells)}>
          {other.words}
        </Button>
      ))}
    </li>
  );
}
