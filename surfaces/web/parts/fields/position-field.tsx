/** A position in one field, typed in any way it is written; what it was read as stands under it. */
import type { Position } from '@stillstand/science/survey';
import { useEffect, useState } from 'react';
import { type PositionCells, positionSaid, useGrid, writtenPosition } from '../../positions/index.ts';
import { Button } from '../button.tsx';
import { Mark } from '../mark.tsx';
import { Field } from './field.tsx';
import './position-field.css';
import { typedKeys } from './typed-keys.ts';
import { useUnsaved } from './unsaved.ts';

const HELP = {
  about:
    'Where it is, on WGS 84: degrees and minutes (46° 24.653′ S 121° 18.891′ W), decimal degrees (−46.41088, −121.31485), or UTM (10 south 475811 4860093)',
  source: 'No height is taken from it',
};

export function PositionField({
  cells,
  others,
  grid: setting,
  disabled = false,
  onType,
  onCommit,
}: {
  cells: Readonly<Partial<PositionCells>>;
  /** Positions of the campaign but its own. */
  others: readonly (Position & { label: string })[];
  /** The campaign's grid of easting and northing, as its setting says; empty for none. */
  grid: string;
  disabled?: boolean;
  /** With every change of what is typed. */
  onType?: (cells: PositionCells) => void;
  /** Once it is done. */
  onCommit: (cells: PositionCells) => unknown;
}) {
  const grid = useGrid(setting);
  const value = writtenPosition(cells);
  const [typed, setTyped] = useState(value);
  // A form that follows the typing gives back what was read: the words stay as they are typed.
  // biome-ignore lint/correctness/useExhaustiveDependencies: for another position, not for another neighbour.
  useEffect(
    () => setTyped((before) => (isSame(positionSaid(before, [], grid).cells, cells) ? before : value)),
    [value],
  );
  useUnsaved(typed !== value && !disabled);
  const said = positionSaid(typed, others, grid);
  const type = (text: string): void => {
    setTyped(text);
    // What is said of the others is of no matter for the cells.
    onType?.(positionSaid(text, [], grid).cells);
  };
  const commit = (): void => {
    if (typed === value) return;
    // What cannot be read is kept as it was written; the degrees there are stay.
    const { latitude_deg = '', longitude_deg = '' } = cells;
    const kept = said.fault === null ? said.cells : { ...said.cells, latitude_deg, longitude_deg };
    if (onCommit(kept) === false) setTyped(value);
  };
  return (
    <div className="position-field">
      <Field
        name="Position"
        help={
          grid === null ? HELP : { ...HELP, about: `${HELP.about}, or easting and northing of ${grid.name}` }
        }
        fault={said.fault}
      >
        {(input) => (
          <input
            {...input}
            value={typed}
            disabled={disabled}
            autoComplete="off"
            autoCapitalize="off"
            spellCheck={false}
            onChange={(event) => type(event.target.value)}
            onBlur={commit}
            onKeyDown={typedKeys(typed !== value, commit, () => type(value))}
          />
        )}
      </Field>
      {said.words === null ? null : (
        <p className="read-as" role="status">
          {said.words}
        </p>
      )}
      {said.cautions.map((caution) => (
        <p key={caution} className="doubt" role="status">
          <Mark name="close" size={18} /> {caution}
        </p>
      ))}
      {disabled
        ? null
        : said.instead.map((other) => (
            <Button
              key={other.words}
              onClick={() => {
                onType?.(other.cells);
                onCommit(other.cells);
              }}
            >
              {other.words}
            </Button>
          ))}
    </div>
  );
}

const isSame = (read: PositionCells, cells: Readonly<Partial<PositionCells>>): boolean =>
  Object.entries(read).every(([column, cell]) => (cells[column as keyof PositionCells] ?? '') === cell);
