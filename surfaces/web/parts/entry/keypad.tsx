/** Large keys for lengths and numbers; a wet glove needs no system keyboard. What a press does is in `keypad-typing`. */
import { t } from '../../language/index.ts';
import { PAD_UNITS, type PadKey, type PadUnit } from './keypad-typing.ts';
import './keypad.css';

interface KeypadProps {
  /** Lit: the unit of a number that has none. */
  unit: PadUnit;
  onKey: (key: PadKey) => void;
  /** Lengths have units; plain numbers do not. */
  units: boolean;
  /** Fractions of an inch, for a tape that has them. */
  fractions: boolean;
}

const ROWS: readonly (readonly PadKey[])[] = [
  ['7', '8', '9', 'm'],
  ['4', '5', '6', 'cm'],
  ['1', '2', '3', 'ft'],
  ['.', '0', 'delete', 'in'],
];
const FRACTIONS: readonly PadKey[] = ['1/8', '1/4', '1/2', '3/4'];
const NAMES: Partial<Record<PadKey, string>> = {
  delete: t`delete`,
  '.': t`point`,
  m: t`metres`,
  cm: t`centimetres`,
  ft: t`feet`,
  in: t`inches`,
  '1/4': t`one quarter`,
  '1/2': t`one half`,
  '3/4': t`three quarters`,
  '1/8': t`one eighth`,
};
const isUnit = (key: PadKey): key is PadUnit => (PAD_UNITS as readonly string[]).includes(key);

export function Keypad({ unit, onKey, units, fractions }: KeypadProps) {
  const rows = fractions ? [...ROWS, FRACTIONS] : ROWS;
  return (
    <section
      className="keypad"
      aria-label={t`keypad`}
      data-rows={rows.length}
      // the field keeps the focus and its caret
      onPointerDown={(event) => event.preventDefault()}
    >
      {rows.flat().map((key) =>
        isUnit(key) && !units ? (
          <span key={key} />
        ) : (
          <button
            key={key}
            type="button"
            tabIndex={-1}
            className={isUnit(key) ? 'key unit' : 'key'}
            aria-label={NAMES[key]}
            aria-pressed={isUnit(key) ? key === unit : undefined}
            onClick={() => onKey(key)}
          >
            {key === 'delete' ? <DeleteMark /> : key}
          </button>
        ),
      )}
    </section>
  );
}

function DeleteMark() {
  return (
    <svg
      viewBox="0 0 32 24"
      width="34"
      height="26"
      aria-hidden="true"
      fill="none"
      stroke="currentColor"
      strokeWidth="2"
    >
      <path d="M10 3h19v18H10L2 12zM15 8l8 8m0 -8l-8 8" />
    </svg>
  );
}
