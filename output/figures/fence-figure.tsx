/** All section lines together, as panels standing on the map. */
import type { Results } from '@stillstand/campaign/results';
import { Text } from '@stillstand/output/drawing';
import { counted, printed } from '@stillstand/output/words';
import { FenceDrawing } from './fence/drawing.tsx';
import { fenceLayout } from './fence/layout.ts';
import { doLinesMeet, fenceLines } from './fence/plan.ts';
import { drawn, type Figure, type FigureOptions, innerWidth, narrowness, type Warning } from './figure.tsx';
import { surenessOf } from './section/contacts.tsx';
import { keyHeight, keyRows, SedimentKey } from './section/sediment-key.tsx';

/** Why there is no fence; null where there is one. */
export function whyNoFence(results: Results): string | null {
  const lines = fenceLines(results);
  if (lines.length < 2)
    return `a fence needs two section lines of at least two holes with coordinates and ground elevations; there ${lines.length === 1 ? 'is one' : 'are none'}`;
  return doLinesMeet(lines) ? null : 'the section lines do not cross and share no hole';
}

/** The least width between margins at which every hole is named, points; tried by 5. Null where none is found. */
function roomForNames(results: Results, from: number): number | null {
  const lines = fenceLines(results);
  for (let width = from + 5; width < 4 * from; width += 5) {
    if (fenceLayout(results, lines, width).holes.every(({ label }) => label !== null)) return width;
  }
  return null;
}

function unnamedWarning(results: Results, inner: number, unnamed: readonly string[]): Warning[] {
  if (unnamed.length === 0) return [];
  const what = `not named: ${unnamed.join(', ')}`;
  const least = roomForNames(results, inner);
  return least === null ? [{ kind: 'narrow', text: `Narrow: ${what}` }] : narrowness(least, inner, what);
}

/** Two columns wide. Without lines that meet it says why nothing is drawn. */
export function fenceFigure(results: Results, options: FigureOptions = {}): Figure {
  const inner = innerWidth('two', options);
  const why = whyNoFence(results);
  const sheet = { name: 'fence', width: 'two', title: `${results.name}, fence of sections` } as const;
  if (why !== null) {
    const warnings: Warning[] = [{ kind: 'caution', text: `Not drawn: ${why}` }];
    return drawn(
      {
        ...sheet,
        notes: [],
        warnings,
        caption: { head: 'Fence of sections.', text: `Not drawn: ${why}.` },
        height: 8,
      },
      <g />,
      options,
    );
  }
  const lines = fenceLines(results);
  const layout = fenceLayout(results, lines, inner);
  const key = keyRows(layout.sediments, inner);
  const unnamed = layout.holes.filter(({ label }) => label === null).map(({ name }) => name);
  const scale = `vertical exaggeration ${printed(layout.exaggeration, layout.exaggeration < 10 ? 1 : 0)}`;
  return drawn(
    {
      ...sheet,
      notes: [counted(lines.length, 'section line'), counted(layout.holes.length, 'hole')],
      warnings: unnamedWarning(results, inner, unnamed),
      caption: {
        head: 'Section lines together.',
        text: [
          `Lines ${lines.map(({ section }) => section.line ?? 'through all holes').join(', ')} in oblique parallel projection seen from the south: east and heights to scale, north half as long and slanting.`,
          `Holes black and white by metre of depth; bold, the ground; dashed, zero: ${results.datum.label}.`,
          layout.contacts.some((contact) => surenessOf(contact) === 'possible')
            ? 'Contacts: line certain, dashes probable, dots possible or not known.'
            : 'Contacts: line certain, dashes probable.',
          layout.contacts.some((contact) => contact.is_erosional) ? 'Wave: erosional.' : '',
        ]
          .filter((part) => part !== '')
          .join(' '),
      },
      height: layout.height + 4 + keyHeight(key),
    },
    <g>
      <FenceDrawing layout={layout} />
      <Text x={inner} y={layout.height - 6} anchor="end" voice="ink2">
        {scale}
      </Text>
      <SedimentKey items={key} y={layout.height + 2} width={inner} />
    </g>,
    options,
  );
}
