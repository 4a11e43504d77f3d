import { CoreSymbol, coreSymbols, placeAlong, type Scale, Text, textWidth } from '@stillstand/output/drawing';
import type { Column } from './lanes.ts';

/** Signs beside the units they were seen in, two abreast where a unit is thin. */
export function CoreSymbolLane({ column, depth }: { column: Column; depth: Scale }) {
  if (!column.lane.hasSeen) return null;
  const rows = column.units.flatMap(({ unit }) => {
    const words = coreSymbols([...unit.structures, ...unit.fossils]);
    const top = depth(unit.depth_top_m.value);
    const bottom = depth(unit.depth_bottom_m.value);
    const fit = Math.max(1, Math.floor((bottom - top) / 9));
    const abreast = Math.min(3, Math.ceil(words.length / fit));
    const lines = Math.ceil(words.length / Math.max(1, abreast));
    return Array.from({ length: lines }, (_, i) => ({
      words: words.slice(i * abreast, (i + 1) * abreast),
      at: top + ((bottom - top) * (i + 0.5)) / lines,
    }));
  });
  const places = placeAlong(
    rows.map((row) => ({ at: row.at, size: 9 })),
    depth(0),
    depth(column.bottom_m),
  );
  const signs = rows.flatMap((row, i) =>
    row.words.map((name, j) => ({
      name,
      x: column.lane.seen + (j - (row.words.length - 1) / 2) * 9,
      y: places[i]!,
    })),
  );
  return (
    <g>
      {signs.map((sign) => (
        <CoreSymbol key={`${sign.x} ${sign.y}`} {...sign} />
      ))}
    </g>
  );
}

export interface LegendItem {
  name: string;
  x: number;
}

export function legendRows(names: readonly string[], width: number): LegendItem[][] {
  const rows: { items: LegendItem[]; width: number }[] = [];
  for (const name of names) {
    const room = textWidth(name) + 30;
    let row = rows.at(-1);
    if (row === undefined || row.width + room > width) {
      row = { items: [], width: 0 };
      rows.push(row);
    }
    row.items.push({ name, x: row.width });
    row.width += room;
  }
  return rows.map((row) => row.items.map((item) => ({ ...item, x: item.x + (width - row.width) / 2 + 9 })));
}

export function CoreSymbolLegend({ rows, y }: { rows: readonly LegendItem[][]; y: number }) {
  return (
    <g>
      {rows.map((row, i) =>
        row.map((item) => (
          <g key={item.name}>
            <CoreSymbol name={item.name} x={item.x} y={y + i * 12} />
            <Text x={item.x + 8} y={y + i * 12 + 2.4}>
              {item.name}
            </Text>
          </g>
        )),
      )}
    </g>
  );
}
