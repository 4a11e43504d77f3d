/** What is typed of a scale: the depths of its marks, the width of the core and where its middle is. */
import type { LengthOptions } from '@stillstand/campaign/tables';
import { columnHelp, Mark } from '../../../parts/index.ts';
import { TypedLength } from '../panel/length-field.tsx';
import { type Marking, type MarkingFaults, withMark } from './marking.ts';

export function MarkingFields({
  marking,
  faults,
  options,
  onChange,
}: {
  marking: Marking;
  faults: MarkingFaults;
  options: LengthOptions;
  onChange: (by: (before: Marking) => Marking) => void;
}) {
  const field = (
    name: string,
    column: keyof MarkingFaults & ('mark_1' | 'mark_2' | 'strip_width' | 'strip_offset'),
    typed: string,
    change: (before: Marking, typed: string) => Marking,
  ) => (
    <TypedLength
      name={name}
      typed={typed}
      options={options}
      help={columnHelp('photos', column)}
      fault={faults[column]}
      onType={(next) => onChange((before) => change(before, next))}
    />
  );
  return (
    <>
      <div className="fields">
        {field('Depth at mark 1', 'mark_1', marking.marks[0].depth, (m, depth) => withMark(m, 0, { depth }))}
        {field('Depth at mark 2', 'mark_2', marking.marks[1].depth, (m, depth) => withMark(m, 1, { depth }))}
        {field('Width of the core', 'strip_width', marking.width, (m, width) => ({ ...m, width }))}
        {field('Offset of the core', 'strip_offset', marking.offset, (m, offset) => ({ ...m, offset }))}
      </div>
      {faults.places === null ? null : (
        <p className="fault" role="alert">
          <Mark name="stop" size={15} /> {faults.places}
        </p>
      )}
    </>
  );
}
