/** The contacts between two holes, each with the rows it is drawn from. */
import { chord, extent, type Lines, sharesOf } from './lines.ts';
import type { Meeting } from './pieces.ts';
import type { ContactLine, Point } from './shape.ts';
import type { Said, Shape } from './shapes-between.ts';
import { isOneSided, type Slot } from './slots.ts';
import type { Layer, Stack } from './stack.ts';

export function contactsOf(
  left: Stack,
  right: Stack,
  slots: readonly Slot[],
  shapes: readonly Shape[],
  said: readonly (Said | null)[],
  { t, y }: Lines,
  meetings: readonly Meeting[],
): { contacts: ContactLine[]; queries: Point[] } {
  const contacts: ContactLine[] = [];
  const queries: Point[] = [];
  const x = t.map((share) => chord(left.along_m, right.along_m, share));
  const line = (of: readonly number[], from: number, to: number): Point[] => {
    const [first, last] = [t.indexOf(from), t.indexOf(to)];
    return of.slice(first, last + 1).map((e, i): Point => [x[first + i]!, e]);
  };
  const add = (
    a: Layer | null,
    b: Layer | null,
    made: Pick<ContactLine, 'line' | 'ending' | 'isLateral'> & {
      tie?: Slot['tie'];
      boundary?: string | null;
    },
  ): void => {
    const [first, second] = a === null ? [b!, null] : [a, b];
    contacts.push({
      hole_a: a === null ? right.hole : left.hole,
      unit_a: first.id!,
      hole_b: second === null ? null : right.hole,
      unit_b: second?.id ?? null,
      horizon: made.tie?.horizon ?? null,
      confidence: made.tie?.confidence ?? null,
      ending: made.ending,
      isErosional: !made.isLateral && (a?.isErosional === true || b?.isErosional === true),
      isLateral: made.isLateral,
      line: made.line,
      tie: made.tie?.row_id ?? null,
      boundary: made.boundary ?? null,
    });
  };
  const lowest = (stack: Stack, places: readonly number[], tied: number | undefined): Layer | null =>
    stack.layers[tied ?? places.at(-1) ?? -1] ?? null;

  slots.forEach((slot, k) => {
    const { tie } = slot;
    const [a, b] = [lowest(left, slot.a, tie?.a), lowest(right, slot.b, tie?.b)];
    const boundary = said[k]?.row_id ?? null;
    const [from, to] = extent(slot, shapes[k]!);
    const isEnd = tie === null && isOneSided(slot);
    const isNamed = [a, b].every((layer) => layer === null || layer.id !== null);
    const isSeen = tie !== null || a?.isBaseSeen === true || b?.isBaseSeen === true;
    if (isNamed && isSeen) {
      const ofTie = said[k]?.ending === 'unknown' ? 'unknown' : 'continuous';
      const free = said[k]?.ending === 'continuous' && slot.isOneBody ? 'continuous' : 'unknown';
      const ending = isEnd ? shapes[k]!.ending : tie !== null ? ofTie : free;
      const base = line(y[k + 1]!, from, to);
      add(a, b, { line: base, ending, isLateral: false, tie, boundary });
      if (tie !== null && ofTie === 'unknown') queries.push(middleOf(base));
    }
    for (const [stack, places, isLeft] of [
      [left, slot.a, true],
      [right, slot.b, false],
    ] as const) {
      if (places.length < 2) continue;
      const [start, end] = isLeft ? [0, shapes[k]!.at] : [shapes[k]!.at, 1];
      sharesOf(stack, places).forEach((share, i) => {
        const layer = stack.layers[places[i]!]!;
        if (i === places.length - 1 || layer.id === null || !layer.isBaseSeen) return;
        const between = y[k]!.map((e, at) => e + (y[k + 1]![at]! - e) * share);
        add(isLeft ? layer : null, isLeft ? null : layer, {
          line: line(between, start, end),
          ending: 'unknown',
          isLateral: false,
        });
      });
    }
  });
  for (const meeting of meetings) {
    const slot = slots[meeting.slot]!;
    const [a, b] = [left.layers[slot.a[0]!]!, right.layers[slot.b[0]!]!];
    const ending = shapes[meeting.slot]!.ending === 'interfingered' ? 'interfingered' : 'unknown';
    if (a.id !== null && b.id !== null)
      add(a, b, {
        line: meeting.line,
        ending,
        isLateral: true,
        boundary: said[meeting.slot]?.row_id ?? null,
      });
    if (ending === 'unknown') queries.push(middleOf([meeting.line[0]!, meeting.line.at(-1)!]));
  }
  return { contacts, queries };
}

function middleOf(line: readonly Point[]): Point {
  const [a, b] = [line[Math.floor((line.length - 1) / 2)]!, line[Math.ceil((line.length - 1) / 2)]!];
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}
