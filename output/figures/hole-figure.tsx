/** The hole to scale on paper: the drawing of the rig's screen, with head and caption. */

import { counted } from '@stillstand/output/words';
import { drawn, type Figure, type FigureOptions, plainName, type Warning } from './figure.tsx';
import { HOLE_DRAWING, HoleDrawing, holeWords } from './hole-figure/drawing.tsx';
import type { HoleView } from './hole-figure/view.ts';

/** The hole as it stands after its last reading, one column of a page wide. */
export function holeFigure(view: HoleView, options: FigureOptions = {}): Figure {
  const id = `hole-${plainName(view.hole)}`;
  const warnings: Warning[] = [];
  if (view.verdict === 'stop' || view.verdict === 'past shoe') {
    warnings.push({
      kind: 'caution',
      text: view.verdict === 'stop' ? 'Sampler inside the margin' : 'Sampler past the shoe',
    });
  }
  if (view.left.length > 0) {
    warnings.push({
      kind: 'caution',
      text: `Left in the ground: ${view.left.map((l) => l.label).join(', ')}`,
    });
  }
  if (view.unmarked) warnings.push({ kind: 'caution', text: 'Cable marks not confirmed' });
  const pace = view.drives?.at(-1)?.pace;
  if (pace === 'slowing' || pace === 'refusal')
    warnings.push({ kind: 'caution', text: pace === 'slowing' ? 'Driving slows' : 'Refusal' });
  if (view.items.length > 0 && view.collar_to_shoe_m === null) {
    warnings.push({ kind: 'caution', text: 'Length of the string not known' });
  }
  const joints = view.items.filter((i) => i.item === 'joint').length;
  return drawn(
    {
      name: id,
      width: 'one',
      title: `Hole ${view.hole}`,
      notes: [joints === 0 ? 'no string in the hole' : `${counted(joints, 'joint')} in`],
      warnings,
      caption: {
        head: `Hole ${view.hole} as it stands.`,
        text: `${holeWords(view)} Depths to scale, widths not; blank is what has not been read or sampled. ${view.drives === null ? 'Lengths at the enlarged ends are from the collar.' : 'Bars: rate of each drive; broken line, half of the usual.'}`,
      },
      height: HOLE_DRAWING.height,
    },
    <HoleDrawing view={view} theme={options.theme ?? 'print'} id={id} />,
    options,
  );
}
