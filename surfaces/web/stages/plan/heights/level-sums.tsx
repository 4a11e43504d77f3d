/** Foot of the level book. */
import { printed, signed } from '@stillstand/output/words';
import { Mark } from '../../../parts/index.ts';
import type { Preview } from './level-preview.ts';

/** Foot of the columns and the check of the arithmetic: three differences that must be one. */
export function LevelSums({ preview: { loop }, isRise }: { preview: Preview; isRise: boolean }) {
  if (loop === null || loop.lines.length < 2) return null;
  const { back_m, fore_m, rise_m, fall_m } = loop.sums;
  const { sights_m, rises_m, levels_m, agrees } = loop.check;
  const of = (value: number): string => printed(value, 3);
  return (
    <tfoot>
      <tr className="sums-row">
        <th scope="row">sums</th>
        <td className="number" data-name="backsights">
          {of(back_m)}
        </td>
        <td />
        <td className="number" data-name="foresights">
          {of(fore_m)}
        </td>
        {isRise ? (
          <>
            <td className="number" data-name="rises">
              {of(rise_m)}
            </td>
            <td className="number" data-name="falls">
              {of(fall_m)}
            </td>
          </>
        ) : (
          <td />
        )}
        <td className="number" data-name="last − first">
          {signed(levels_m, 3)}
        </td>
        <td colSpan={3} />
      </tr>
      <tr className="check-row">
        <td colSpan={isRise ? 10 : 9}>
          {loop.isOpen ? (
            'The last set-up is open: the check follows with its foresight.'
          ) : (
            <p>
              <Mark name={agrees ? 'tick' : 'stop'} size={16} label={agrees ? 'agrees' : 'does not agree'} />{' '}
              Backsights − foresights {signed(sights_m, 3)} = rises − falls {signed(rises_m, 3)} = last −
              first {signed(levels_m, 3)}
            </p>
          )}
        </td>
      </tr>
    </tfoot>
  );
}
