/** One line of theirs by what its cells are for. */
import { placeOf } from './columns.ts';
import type { MappedColumn, Mapping } from './mapping.ts';
import type { TheirLine } from './sheet.ts';
import { targetsOf } from './targets.ts';

/** A cell in which something is written. */
export interface Said {
  text: string;
  column: MappedColumn;
}

export interface Given {
  line: number;
  /** By what of ours it fills. */
  said: Map<string, Said>;
  /** Cells of which each is a row of its own, from the left. */
  many: Said[];
  /** What fills nothing of ours. */
  rest: Said[];
}

export function givenIn(line: TheirLine, mapping: Mapping): Given {
  const given: Given = { line: line.line, said: new Map(), many: [], rest: [] };
  const targets = targetsOf(mapping.as);
  for (const column of mapping.columns) {
    const text = (line.cells[placeOf(column.column)] ?? '').trim();
    if (text === '') continue;
    const target = column.to === null ? undefined : targets.get(column.to);
    if (target === undefined) given.rest.push({ text, column });
    else if (target.way === 'many') given.many.push({ text, column });
    else if (!given.said.has(target.to)) given.said.set(target.to, { text, column });
    else given.rest.push({ text, column });
  }
  return given;
}
