/** The section as it was at a few ages: later deposits left off, water where the surface lay below the sea. */
import {
  box,
  DOTTED,
  horizontal,
  LINE,
  line as lineTo,
  move,
  polygon,
  polyline,
  r2,
  Span,
  Text,
  useInk,
  vertical,
  wave,
  wrapped,
} from '@stillstand/output/drawing';
import { printed, years } from '@stillstand/output/words';
import { Fills } from '../section/fill.tsx';
import type { EnvironmentsLayout } from './layout.ts';
import { AGE_SIZE, LABELS, levelWords, type PastCell, type PastSections } from './past-sections.ts';

export function Past({ layout: { past, width }, id }: { layout: EnvironmentsLayout; id: string }) {
  if (past === null) return null;
  const top = past.title_y + 7;
  return (
    <g id={`${id}-past`} transform={`translate(0 ${r2(top)})`}>
      {past.cells.map((cell, i) => (
        <g key={cell.past.age_cal_bp} transform={`translate(${r2(cell.x)} ${r2(cell.y)})`}>
          <Cell cell={cell} past={past} id={`${id}-past-${i + 1}`} />
        </g>
      ))}
      <Bar past={past} width={width} />
    </g>
  );
}

function Cell({ cell, past, id }: { cell: PastCell; past: PastSections; id: string }) {
  const ink = useInk();
  const { width, drawing } = past.cell;
  const foot = LABELS + drawing;
  const [median, rest] = levelWords(cell.past);
  const solid = cell.surface.filter(({ isLeast }) => !isLeast);
  const least = cell.surface.filter(({ isLeast }) => isLeast);
  const lines = (stretches: typeof solid): string =>
    stretches.map(({ from, to }) => move(...from) + lineTo(...to)).join('');
  return (
    <>
      {cell.surface.length === 0 ? null : <Deposits cell={cell} past={past} id={id} foot={foot} />}
      {cell.water.map((outline) => {
        const [x1, x2] = [Math.min(...outline.map(([x]) => x)), Math.max(...outline.map(([x]) => x))];
        return (
          <g key={x1}>
            <path d={polygon(outline)} fill={ink.seaWash2} />
            {x2 - x1 < 4 ? null : (
              <path
                d={wave(x1, x2, cell.level!.median, 2.4, 0.6)}
                stroke={ink.sea}
                strokeWidth={LINE.edge}
                fill="none"
              />
            )}
          </g>
        );
      })}
      {cell.level === null ? null : (
        <path
          d={horizontal(0, width, cell.level.lower) + horizontal(0, width, cell.level.upper)}
          stroke={ink.sea}
          strokeWidth={LINE.edge}
          {...DOTTED}
          fill="none"
        />
      )}
      <path d={polyline(past.ground)} stroke={ink.ink3} strokeWidth={LINE.fine} {...DOTTED} fill="none" />
      <g stroke={ink.ink} strokeWidth={LINE.page} strokeLinecap="round" fill="none">
        <path d={lines(solid)} />
        <path d={lines(least)} strokeDasharray="3.2 2.6" />
      </g>
      <path
        d={past.holes.map(({ x, y }) => vertical(x, y - 3, y + 1.5)).join('')}
        stroke={ink.ink}
        strokeWidth={LINE.bold}
        fill="none"
      />
      {past.holes.map(({ hole, label_x }) =>
        label_x === null ? null : (
          <Text key={hole} x={label_x} y={7} anchor="middle">
            {hole}
          </Text>
        ),
      )}
      <Text x={0} y={foot + 10}>
        <Span weight={600} size={AGE_SIZE}>
          {years(cell.past.age_cal_bp)}
        </Span>
        <Span voice="ink2"> cal BP</Span>
      </Text>
      <Text
        x={past.level_below > 0 ? 0 : width}
        y={foot + 10 + past.level_below}
        anchor={past.level_below > 0 ? 'start' : 'end'}
        voice="ink2"
      >
        <Span weight={600} voice="ink">
          {median}
        </Span>
        {rest}
      </Text>
    </>
  );
}

/** Units of today's section, as far as they lay under the surface then. */
function Deposits({
  cell,
  past,
  id,
  foot,
}: {
  cell: PastCell;
  past: PastSections;
  id: string;
  foot: number;
}) {
  return (
    <>
      <clipPath id={`${id}-then`}>
        <path
          d={cell.surface.map(({ from, to }) => polygon([from, to, [to[0], foot], [from[0], foot]])).join('')}
        />
      </clipPath>
      <g clipPath={`url(#${id}-then)`}>
        <Fills bodies={past.bodies} id={id} />
      </g>
    </>
  );
}

/** Metres along and up, one for all ages. */
function Bar({ past: { bar, height, below }, width }: { past: PastSections; width: number }) {
  const ink = useInk();
  const y = height + below;
  const metres = (value: number): string => `${printed(value, value >= 1 ? 0 : value >= 0.1 ? 1 : 2)} m`;
  const alongX = 40;
  const words =
    bar.exaggeration === null
      ? 'not to scale along the line'
      : `vertical exaggeration ${printed(bar.exaggeration, bar.exaggeration < 10 ? 1 : 0)}`;
  const room = width - alongX - bar.along - 4;
  const lines = wrapped(`${metres(bar.along_m)}, ${words}`, room);
  return (
    <g>
      <g stroke={ink.ink} strokeWidth={LINE.fine}>
        <path d={box(0, y - bar.up, 3.4, y - bar.up / 2)} fill={ink.ink} />
        <path d={box(0, y - bar.up / 2, 3.4, y)} fill={ink.paper} />
      </g>
      <Text x={7} y={y - bar.up / 2 + 2.5}>
        {metres(bar.up_m)}
      </Text>
      {bar.exaggeration === null ? null : (
        <>
          <g stroke={ink.ink} strokeWidth={LINE.fine}>
            <path d={box(alongX, y - 3.4, alongX + bar.along / 2, y)} fill={ink.ink} />
            <path d={box(alongX + bar.along / 2, y - 3.4, alongX + bar.along, y)} fill={ink.paper} />
          </g>
          {lines.map((line, i) => (
            <Text key={line} x={alongX + bar.along + 4} y={y - (lines.length - 1 - i) * 8.4}>
              {line}
            </Text>
          ))}
        </>
      )}
      {bar.exaggeration === null ? (
        <Text x={alongX} y={y}>
          {words}
        </Text>
      ) : null}
    </g>
  );
}
