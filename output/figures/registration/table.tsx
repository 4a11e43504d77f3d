import type { HoleResult, UnitResult } from '@stillstand/campaign/results';
import { horizontal, LINE, Span, sedimentOfUnit, shortened, Text, useInk } from '@stillstand/output/drawing';
import { decimalsDrawn, printed } from '@stillstand/output/words';
import { type Model, REJECTS_SD, STROKE } from './models.ts';

const ROW = 12;
const HEAD_ROW = 13;
/** Past this no one asks how many sd. */
const MOST_SD = 10;

/** Where the columns begin, points from the left. */
const AT = { name: 34, top: 130, base: 190, moved: 214, soundings: 300 } as const;

/** Below this the last two columns stand in a line of their own, points. */
const ONE_LINE = 480;
const SECOND_LINE = 9;
const rowHeight = (width: number): number => ROW + (width < ONE_LINE ? SECOND_LINE : 0);

export const tableHeight = (models: readonly Model[], width: number): number =>
  models.length === 0 ? 0 : HEAD_ROW + models.length * rowHeight(width) + 2;

/** A row for each model: its line, where it has the layer, how far that is from ours, what the soundings say of it. */
export function ModelTable({
  hole,
  models,
  layer,
  y,
  width,
}: {
  hole: HoleResult;
  models: readonly Model[];
  layer: UnitResult | null;
  y: number;
  width: number;
}) {
  const ink = useInk();
  if (models.length === 0) return null;
  const isNarrow = width < ONE_LINE;
  const hasBase = AT.base < width;
  const ours = models.find((m) => m.kind === 'decaying') ?? null;
  const followed =
    layer === null
      ? ''
      : `layer ${layer.unit === '' ? '' : `${layer.unit}, `}${sedimentOfUnit(layer).name.toLowerCase()}`;
  return (
    <g>
      <path d={horizontal(0, width, y + 3)} stroke={ink.ink} strokeWidth={LINE.fine} fill="none" />
      {layer === null ? null : (
        <>
          <Text x={0} y={y} weight={600}>
            {shortened(followed, AT.top - 26, { weight: 600 })}
          </Text>
          <Text x={AT.top} y={y} anchor="end" voice="ink3">
            top, m
          </Text>
          {!hasBase ? null : (
            <Text x={AT.base} y={y} anchor="end" voice="ink3">
              base, m
            </Text>
          )}
          {isNarrow ? null : (
            <Text x={AT.moved} y={y} voice="ink3">
              its top is put
            </Text>
          )}
        </>
      )}
      {isNarrow ? null : (
        <Text x={AT.soundings} y={y} voice="ink3">
          the soundings
        </Text>
      )}
      {models.map((model, i) => {
        const line = y + HEAD_ROW + i * rowHeight(width);
        const place = layer === null ? undefined : model.units.get(layer.row_id);
        const known = layer === null ? undefined : ours?.units.get(layer.row_id);
        const put =
          place === undefined || known === undefined || model.rival === null
            ? null
            : moved(place.top.value - known.top.value);
        return (
          <g key={model.kind}>
            <path
              d={horizontal(0, 26, line - 2.4)}
              stroke={ink.ink}
              strokeWidth={STROKE[model.kind].width}
              strokeDasharray={STROKE[model.kind].dash}
              fill="none"
            />
            <Text x={AT.name} y={line}>
              {model.name}
            </Text>
            {place === undefined ? null : (
              <>
                <Depth at={place.top} x={AT.top} y={line} />
                {hasBase ? <Depth at={place.bottom} x={AT.base} y={line} /> : null}
              </>
            )}
            {put === null || isNarrow ? null : (
              <Text x={AT.moved} y={line}>
                {put}
              </Text>
            )}
            <Text
              x={isNarrow ? AT.name : AT.soundings}
              y={isNarrow ? line + SECOND_LINE : line}
              weight={rejected(model) ? 600 : 400}
              voice={isNarrow ? 'ink2' : 'ink'}
            >
              {isNarrow
                ? shortened(`the soundings: ${verdict(model, hole)}`, width - AT.name, {
                    weight: rejected(model) ? 600 : 400,
                  })
                : verdict(model, hole)}
            </Text>
          </g>
        );
      })}
    </g>
  );
}

function Depth({ at, x, y }: { at: { value: number; sigma: number }; x: number; y: number }) {
  const decimals = at.sigma > 0 ? decimalsDrawn(2 * at.sigma) : 2;
  return (
    <Text x={x} y={y} anchor="end">
      {printed(at.value, decimals)}
      {at.sigma > 0 ? (
        <Span weight={300} voice="ink2">
          {` ±${printed(2 * at.sigma, decimals)}`}
        </Span>
      ) : null}
    </Text>
  );
}

const moved = (metres: number): string =>
  printed(Math.abs(metres), 2) === '0.00'
    ? 'where ours is'
    : `${printed(Math.abs(metres), 2)} m ${metres > 0 ? 'deeper' : 'higher'}`;

const rejected = ({ rival }: Model): boolean =>
  rival !== null && rival.degrees > 0 && rival.rejected_sd > REJECTS_SD;

function verdict(model: Model, hole: HoleResult): string {
  const { rival } = model;
  if (rival === null) return hole.soundings.length === 0 ? 'none to hold it' : 'it runs through them';
  if (rival.degrees === 0) return 'too few to tell it by';
  const sd =
    rival.rejected_sd > MOST_SD
      ? `more than ${MOST_SD} sd`
      : `${printed(Math.max(0, rival.rejected_sd), 1)} sd`;
  return `${rejected(model) ? 'reject it' : 'allow it'}: ${sd}; off by up to ${printed(rival.worst_m, 2)} m`;
}
