import { partName } from '@stillstand/output/words';
import type { DeclaredError, ErrorShape } from '@stillstand/science/points';
import { useId, useState } from 'react';
import { columnHelp, Field } from '../parts/index.ts';

const SIZE_WORDS: Record<ErrorShape, string> = {
  normal: 'Size',
  uniform: 'Half width',
  one_sided: 'Scale',
};

/** A size typed, or drawn longer and shorter; the drawing follows while the hand moves. */
export function SizeField({
  part,
  most,
  onMove,
  onLetGo,
}: {
  part: DeclaredError;
  most: number;
  onMove: (value_m: number) => void;
  onLetGo: () => void;
}) {
  const [typed, setTyped] = useState<string | null>(null);
  // The slider's upper end stays where it was when the hand took hold.
  const [end] = useState(most);
  const slider = useId();
  const isSize = typed === null || sizeOf(typed) !== null;
  const letGo = (): void => {
    setTyped(null);
    onLetGo();
  };
  return (
    <div className="size-field">
      <Field
        name={SIZE_WORDS[part.shape]}
        help={columnHelp('point_errors', 'value_m')}
        unit="m"
        fault={isSize ? null : `Found “${typed}”; expected metres from 0 to 100.`}
      >
        {(input) => (
          <input
            {...input}
            inputMode="decimal"
            autoComplete="off"
            value={typed ?? String(part.value_m)}
            onChange={(event) => {
              setTyped(event.target.value);
              const size = sizeOf(event.target.value);
              if (size !== null) onMove(size);
            }}
            onBlur={letGo}
            onKeyDown={(event) => {
              if (event.key === 'Enter') letGo();
            }}
          />
        )}
      </Field>
      <label className="unseen" htmlFor={slider}>
        {SIZE_WORDS[part.shape]} of {partName(part.component)}, drawn
      </label>
      <input
        id={slider}
        className="slider"
        type="range"
        min={0}
        max={end}
        step={0.005}
        value={part.value_m}
        onChange={(event) => onMove(Number(event.target.value))}
        onPointerUp={letGo}
        onKeyUp={letGo}
        onBlur={letGo}
      />
    </div>
  );
}

/** Metres as typed; null for what is no size. */
function sizeOf(typed: string): number | null {
  const value = Number(typed.trim().replace(',', '.'));
  return typed.trim() !== '' && value >= 0 && value <= 100 ? value : null;
}
