import type { UnitResult } from '@stillstand/campaign/results';
import {
  box,
  crossed,
  horizontal,
  LINE,
  Pattern,
  polygon,
  type Scale,
  sedimentOfUnit,
  Text,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { Head } from '../drilling/track.tsx';
import { type Model, STROKE } from './models.ts';

/** The same layers as each model would have them, side by side; the one followed has its pattern, and is tied. */
export function Layers({
  units,
  models,
  layer,
  depth,
  x,
  width,
}: {
  units: readonly UnitResult[];
  models: readonly Model[];
  layer: UnitResult | null;
  depth: Scale;
  x: number;
  width: number;
}) {
  const ink = useInk();
  const wide = Math.min(44, width * 0.24);
  const gap = models.length < 2 ? 0 : (width - models.length * wide) / (models.length - 1);
  const columns = models.map((model, i) => ({
    model,
    x1: x + i * (wide + gap),
    x2: x + i * (wide + gap) + wide,
  }));
  const at = (model: Model, unit: UnitResult) => {
    const place = model.units.get(unit.row_id);
    return place === undefined
      ? null
      : { y1: depth(place.top.value), y2: depth(Math.min(depth.to, place.bottom.value)), place };
  };
  return (
    <g>
      <Head x={x} first="layers in the ground" second="as each model has them" />
      {layer === null
        ? null
        : columns.slice(1).map((right, i) => {
            const left = columns[i]!;
            const a = at(left.model, layer);
            const b = at(right.model, layer);
            if (a === null || b === null) return null;
            return (
              <path
                key={right.model.kind}
                d={polygon([
                  [left.x2, a.y1],
                  [right.x1, b.y1],
                  [right.x1, b.y2],
                  [left.x2, a.y2],
                ])}
                fill={ink.tints[sedimentOfUnit(layer).tint]}
                fillOpacity={0.6}
                stroke={ink.ink}
                strokeWidth={LINE.hair}
              />
            );
          })}
      {columns.map(({ model, x1, x2 }) => (
        <g key={model.kind}>
          {units.map((unit) => {
            const place = at(model, unit);
            if (place === null) return null;
            const { y1, y2 } = place;
            return unit === layer ? (
              <Pattern
                key={unit.row_id}
                sediment={sedimentOfUnit(unit)}
                at={{ x1, y1, x2, y2 }}
                id={`layer-${model.kind}`}
                seed={1}
              />
            ) : (
              <path key={unit.row_id} d={box(x1, y1, x2, y2)} fill={ink.tints[sedimentOfUnit(unit).tint]} />
            );
          })}
          <path
            d={units
              .map((unit) => at(model, unit))
              .map((place) => (place === null ? '' : box(x1, place.y1, x2, place.y2)))
              .join('')}
            fill="none"
            stroke={ink.ink}
            strokeWidth={LINE.fine}
          />
          <path
            d={model.flat
              .map(({ top_m, bottom_m }) => crossed(x1, depth(top_m), x2, depth(bottom_m)))
              .join('')}
            fill="none"
            stroke={ink.ink}
            strokeWidth={0.55}
          />
          {layer === null ? null : <Whiskers model={model} layer={layer} depth={depth} x1={x1} x2={x2} />}
          <path d={horizontal(x1 - 2, x2 + 2, depth(0))} stroke={ink.ink} strokeWidth={1.7} fill="none" />
          <Text x={(x1 + x2) / 2} y={depth(0) - 12} anchor="middle">
            {model.name}
          </Text>
          <path
            d={horizontal(x1, x2, depth(0) - 7)}
            stroke={ink.ink}
            strokeWidth={STROKE[model.kind].width}
            strokeDasharray={STROKE[model.kind].dash}
            fill="none"
          />
        </g>
      ))}
    </g>
  );
}

/** 95 % of the layer's two contacts. */
function Whiskers({
  model,
  layer,
  depth,
  x1,
  x2,
}: {
  model: Model;
  layer: UnitResult;
  depth: Scale;
  x1: number;
  x2: number;
}) {
  const ink = useInk();
  const place = model.units.get(layer.row_id);
  if (place === undefined) return null;
  const { top, bottom } = place;
  return (
    <g stroke={ink.ink} fill="none">
      <path
        d={horizontal(x1, x2, depth(top.value)) + horizontal(x1, x2, depth(bottom.value))}
        strokeWidth={LINE.bold}
      />
      <path
        d={[top, bottom]
          .filter((e) => (e.upper95 - e.lower95) * depth.k > 1.2)
          .map((e, i) => vertical(x1 - 3 - 2 * i, depth(e.lower95), depth(e.upper95)))
          .join('')}
        strokeWidth={0.9}
      />
    </g>
  );
}
