/** Environments through time of one line: sea level, what stood at each hole, the way of the edge, sections of the past. */
import type { LineThroughTime, Results } from '@stillstand/campaign/results';
import { counted, innerSide, notConvergedHoles } from '@stillstand/output/words';
import { notConverged } from './diagnostics.ts';
import { EnvironmentsDrawing } from './environments/drawing.tsx';
import { type EnvironmentsLayout, environmentsLayout, holesDrawn } from './environments/layout.ts';
import { drawn, type Figure, type FigureOptions, innerWidth, plainName, type Warning } from './figure.tsx';

/** One line, two columns wide. */
export function environmentsFigure(
  results: Results,
  line: LineThroughTime,
  options: FigureOptions = {},
): Figure {
  const inner = innerWidth('two', options);
  const layout = environmentsLayout(results, line, { width: inner });
  const name = line.line;
  return drawn(
    {
      name: name === null ? 'environments' : `environments-${plainName(name)}`,
      width: 'two',
      title: `${results.name}, environments through time${name === null ? '' : `, line ${name}`}`,
      notes: [counted(layout.rows.length, 'hole')],
      warnings: environmentsWarnings(results, layout),
      caption: {
        head: name === null ? 'Environments through time.' : `Environments through time, line ${name}.`,
        text: environmentsCaption(results, layout),
      },
      height: layout.height,
    },
    <EnvironmentsDrawing layout={layout} id="environments" />,
    options,
  );
}

/** One figure to a line that has a hole with ages against depth. */
export const environmentsFigures = (results: Results, options: FigureOptions): Figure[] =>
  results.lines_through_time
    .filter((line) => holesDrawn(results, line).environments.length > 0)
    .map((line) => environmentsFigure(results, line, options));

/** What must be known first: chains that do not agree, and a curve that does not. */
function environmentsWarnings(results: Results, { rows, curve }: EnvironmentsLayout): Warning[] {
  const drawnHoles = new Set(rows.map(({ bands }) => bands.hole));
  const open = notConvergedHoles(results).filter((hole) => drawnHoles.has(hole));
  return [
    ...(open.length === 0
      ? []
      : [
          {
            kind: 'not_converged' as const,
            text: `Not converged: ages against depth of ${open.join(', ')}; do not use what is drawn of ${open.length === 1 ? 'it' : 'them'}`,
          },
        ]),
    ...(curve === null || curve.diagnostics.converged
      ? []
      : [{ kind: 'not_converged' as const, text: notConverged(curve.diagnostics) }]),
  ];
}

/** How it is read, after its head. */
function environmentsCaption(results: Results, layout: EnvironmentsLayout): string {
  const { line, level, edge, past, rows, left_out } = layout;
  const hasBeds = rows.some(({ bands }) => bands.beds.length > 0);
  const letters = [level, true, edge, past].flatMap((each) => (each === null ? [] : [each]));
  const letterOf = (panel: unknown): string => `(${'abcd'[letters.indexOf(panel as never)]!})`;
  return [
    level === null
      ? ''
      : `${letterOf(level)} The curve of the report, ages computed apart from those of the holes: median, 68 and 95 %.`,
    `${letterOf(true)} One row to each hole${edge === null ? ', in the order of the line' : `, ${line.edge!.innermost} at the inner end of the line first`}: the height of a band is its probability, so a boundary leans as far as its age is uncertain; blank where no layer is of that time. Lozenges: median ages of dated samples in use.`,
    hasBeds ? 'Ticks over a row: beds laid down at once, with 95 %.' : '',
    edge === null
      ? ''
      : `${letterOf(edge)} Where the edge of ${innerSide(results, line).join(', ')} was: bold the median, dotted the 95 %; large dots where it was more likely beyond the holes; none where it is not known. Triangles: when it passed a hole, and which way, with 95 %.`,
    past === null
      ? ''
      : `${letterOf(past)} Dashed in the panels above: the ages of these sections. Bold: the surface of that age, straight between the holes, dashed where layers are missing or were not recovered and it lay at least so high, and left off where it is not known; dotted, the ground of today. Dotted lines across: sea level, 95 %; the number after ± is half of it.`,
    'Surfaces lie as they lie now and are not raised by what has sunk since.',
    left_out.length === 0 ? '' : `Left out, without ages against depth: ${left_out.join(', ')}.`,
  ]
    .filter((part) => part !== '')
    .join(' ');
}
