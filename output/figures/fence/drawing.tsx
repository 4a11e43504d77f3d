/** The fence: panels from the far ones to the near ones, holes between them, scale bars along all three directions. */
import {
  box,
  DASHED,
  LINE,
  PatternWithin,
  polyline,
  Text,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import { surenessOf, waveAlong } from '../section/contacts.tsx';
import { tieDashes } from '../section/ties.tsx';
import { type FenceHole, type FenceLayout, type FencePanel, northInWords, upInWords } from './layout.ts';

/** Of the staff of a hole, points. */
const STAFF = 4;

export function FenceDrawing({ layout }: { layout: FenceLayout }) {
  const ink = useInk();
  return (
    <g>
      {layout.items.map((item, i) =>
        item.kind === 'panel' ? (
          // biome-ignore lint/suspicious/noArrayIndexKey: panels have no other name
          <Panel key={i} panel={item.panel} number={i + 1} />
        ) : (
          <Hole key={item.hole.row_id} hole={item.hole} />
        ),
      )}
      <g id="fence-names">
        {layout.holes.map(({ row_id, name, label, x, ground }) =>
          label === null ? null : (
            <g key={row_id}>
              {label.lead ? (
                <path
                  d={vertical(x, label.y2 + 0.5, ground)}
                  stroke={ink.line}
                  strokeWidth={LINE.fine}
                  fill="none"
                />
              ) : null}
              <Text x={label.x1 + 1} y={label.y2 - 1.6} weight={600} halo>
                {name}
              </Text>
            </g>
          ),
        )}
      </g>
      <g id="fence-lines">
        {layout.names.map(({ words, x1, y2 }) => (
          <Text key={words} x={x1} y={y2 - 1.6} weight={600} voice="ink2" halo>
            {words}
          </Text>
        ))}
      </g>
      <Bars bars={layout.bars} />
    </g>
  );
}

function Panel({ panel, number }: { panel: FencePanel; number: number }) {
  const ink = useInk();
  return (
    <g>
      {panel.bodies.map(({ sediment, outline }, i) => (
        <PatternWithin
          // biome-ignore lint/suspicious/noArrayIndexKey: bodies have no other name
          key={i}
          sediment={sediment}
          outline={outline}
          id={`fence-${number}-${i + 1}`}
          seed={3000 + number * 50 + i}
        />
      ))}
      <g fill="none" stroke={ink.ink} strokeWidth={LINE.edge} strokeLinecap="round">
        {panel.contacts.map(({ contact, line }, i) => (
          <path
            // biome-ignore lint/suspicious/noArrayIndexKey: contacts have no other name
            key={i}
            d={contact.is_erosional ? waveAlong(line) : polyline(line)}
            strokeDasharray={tieDashes(surenessOf(contact))}
          />
        ))}
      </g>
      <path d={polyline(panel.zero)} stroke={ink.sea} strokeWidth={LINE.edge} {...DASHED} fill="none" />
      <path
        d={polyline(panel.ground)}
        stroke={ink.ink}
        strokeWidth={LINE.page}
        strokeLinejoin="round"
        strokeLinecap="round"
        fill="none"
      />
    </g>
  );
}

function Hole({ hole: { x, ground, foot, blocks } }: { hole: FenceHole }) {
  const ink = useInk();
  const [x1, x2] = [x - STAFF / 2, x + STAFF / 2];
  const black = blocks.slice(1).flatMap((to, i) => (i % 2 === 0 ? [box(x1, blocks[i]!, x2, to)] : []));
  return (
    <g>
      <path d={box(x1, ground, x2, foot)} fill={ink.paper} stroke={ink.ink} strokeWidth={LINE.edge} />
      <path d={black.join('')} fill={ink.ink} />
    </g>
  );
}

function Bars({ bars: { at, east, north, foot, up, plan_m, up_m } }: { bars: FenceLayout['bars'] }) {
  const ink = useInk();
  const length = `${printed(plan_m, 0)} m`;
  const [nx, ny] = [north[0] - at[0], north[1] - at[1]];
  const long = Math.max(1e-6, Math.sqrt(nx * nx + ny * ny));
  const [ux, uy] = [nx / long, ny / long];
  const head = [
    [north[0] - 5 * ux - 2.2 * uy, north[1] - 5 * uy + 2.2 * ux],
    [north[0], north[1]],
    [north[0] - 5 * ux + 2.2 * uy, north[1] - 5 * uy - 2.2 * ux],
  ] as const;
  return (
    <g id="fence-bars">
      <g stroke={ink.ink} strokeWidth={LINE.bold} fill="none" strokeLinejoin="round">
        <path d={polyline([at, east])} />
        <path d={polyline([at, north])} />
        <path d={polyline([foot, up])} />
        <path d={polyline(head)} />
      </g>
      <Text x={east[0] + 3} y={east[1] + 2.4}>
        {`east ${length}`}
      </Text>
      <Text
        x={north[0] + (nx < 0 ? -3 : 3)}
        y={north[1] + 2.4}
        anchor={nx < 0 ? 'end' : 'start'}
        weight={600}
      >
        {northInWords(plan_m)}
      </Text>
      <Text x={up[0] + 3} y={up[1] + 5}>
        {upInWords(up_m)}
      </Text>
    </g>
  );
}
