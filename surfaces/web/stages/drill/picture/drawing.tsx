/** The hole on the screen: the drawing of the paper figure, whole where there is room, in two parts on a phone. */

import { HOLE_DRAWING, HoleDrawing, type HoleView, holeWords } from '@stillstand/output/figures';
import { translated } from '../../../language/index.ts';
import './drawing.css';

export function Drawing({ view, theme, hole }: { view: HoleView; theme: 'day' | 'night'; hole: string }) {
  const { width, height } = HOLE_DRAWING;
  const id = `hole-${hole.replace(/[^A-Za-z0-9]/g, '-')}`;
  return (
    <figure className="drawing">
      <svg className="whole" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={wordsOf(view)}>
        <HoleDrawing view={view} theme={theme} say={translated} id={id} />
      </svg>
      {/* on a phone the same drawing in two parts, so that its words stay readable */}
      <svg className="half" viewBox={`120 0 ${width - 120} ${height}`} aria-hidden="true">
        <HoleDrawing view={view} theme={theme} say={translated} id={`${id}-ends`} />
      </svg>
      <svg className="half" viewBox={`0 0 121 ${height}`} aria-hidden="true">
        <HoleDrawing view={view} theme={theme} say={translated} id={`${id}-scale`} />
      </svg>
    </figure>
  );
}

/** Sentence by sentence. */
const wordsOf = (view: HoleView): string =>
  holeWords(view)
    .split(/(?<=[^0-9]\.) /)
    .map(translated)
    .join(' ');
