/** `stillstand trace`: where a number comes from, down to the readings. */
import { type TraceNode, traceId } from '@stillstand/campaign/results';
import { chosenNumber, type Memo, type Trace } from '@stillstand/campaign/steps';
import { tracedNumber } from '@stillstand/output/words';
import { type Opened, openAndCompute } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { print, printError, progress, sayJson } from '../say.ts';

export const trace: Command = {
  name: 'trace',
  summary: 'Says where a number comes from, down to the readings that made it.',
  usage: ['trace FOLDER ID [--depth 12] [--json]', 'trace FOLDER'],
  options: {
    depth: { type: 'string', value: 'NUMBER', about: 'how many layers to follow; 12 if not given' },
  },
  more: [
    'ID is the name of a number, e.g. point:P7/rsl, date:LAB-12, hole:H3/depth, interval:8000-7000; a label alone',
    'finds the number it belongs to; a number of another curve than that of the report begins with its name, e.g.',
    'curve:NORTH/interval:8000-7000. Any interval between reported ages can be named, and answers of the curve, e.g.',
    '"answer:highest", "answer:passed -5", "answer:slowed 1 8000..2000", "answer:fastest 500", "answer:rate above 2 7000".',
    'Without an ID the names of all numbers are listed.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, id, ...others] = words.positionals;
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected a campaign folder and one ID');
  const depth = words.number('depth', { min: 1, max: 100, integer: true }) ?? 12;
  const memo: Memo = new Map();
  let opened = await openAndCompute(folder, { withCurve: false, memo });
  let root = id === undefined ? null : find(opened.trace, id);
  // Only what is not known without the curve waits for it.
  if (root === null && opened.curveInput !== null) {
    opened = await openAndCompute(folder, { withCurve: true, memo, onProgress: progress('sea level') });
    root = id === undefined ? null : (find(opened.trace, id) ?? chosen(opened, id));
  }
  const names = opened.trace.ids().filter((name) => opened.trace.node(opened.trace.find(name)).row === null);
  if (id === undefined) {
    if (words.flag('json')) sayJson(names);
    else for (const name of names) print(name);
    return 0;
  }
  if (root === null) {
    const near = names.filter((name) => name.includes(id)).slice(0, 8);
    printError(
      `error: no number is named ${id}. ${near.length > 0 ? `Near it: ${near.join(', ')}.` : `List them with: npx stillstand trace ${folder}`}`,
    );
    return 1;
  }
  if (words.flag('json')) sayJson(reachable(opened, root, depth));
  else say(opened, root, depth);
  return 0;
}

/** A number, and the nodes it was made of. */
interface Made {
  told: TraceNode;
  parts: readonly number[];
}

const made = (of: Trace, node: number): Made => ({ told: of.node(node), parts: of.parts(node) });

/** The number of that name, or the one a bare label means; null where there is none. */
function find(of: Trace, id: string): Made | null {
  for (const name of [
    traceId.typed(id),
    traceId.point(id).rsl,
    traceId.date(id),
    traceId.sample(id).elevation,
    traceId.hole(id).depth,
    traceId.typed(`interval:${id}`),
  ]) {
    const node = of.find(name);
    if (node !== -1) return made(of, node);
  }
  return null;
}

/** A rate or an answer that is no part of the results; null where the curve has none of that name. */
function chosen({ trace: of, results }: Opened, id: string): Made | null {
  for (const name of [id, `interval:${id}`, `answer:${id}`]) {
    const told = chosenNumber(traceId.typed(name), results);
    if (told !== null) return { told, parts: told.parts.map((part) => of.find(part)) };
  }
  return null;
}

/** Every node below `start`, each once, with the cells of table rows as they were typed. */
function reachable(opened: Opened, root: Made, depth: number): (TraceNode & { typed: string | null })[] {
  const found = new Map<string, TraceNode & { typed: string | null }>();
  let layer = [root];
  for (let d = 0; d <= depth && layer.length > 0; d++) {
    const next: Made[] = [];
    for (const { told, parts } of layer) {
      if (found.has(told.id)) continue;
      found.set(told.id, { ...told, typed: told.row === null ? null : typed(opened, told.row) });
      next.push(...parts.map((part) => made(opened.trace, part)));
    }
    layer = next;
  }
  return [...found.values()];
}

function say(opened: Opened, root: Made, depth: number): void {
  const said = new Set<string>();
  const visit = ({ told, parts }: Made, indent: string, branch: string, level: number): void => {
    const number = told.value === null ? '' : ` ${tracedNumber(told)}`;
    const again = said.has(told.id) && told.parts.length > 0;
    const words = told.row === null ? told.how : typed(opened, told.row);
    print(`${indent}${branch}${told.label}${number}  ${again ? '(as above)' : words}`);
    if (again || level >= depth) return;
    said.add(told.id);
    const inner = indent + (branch === '' ? '' : branch.startsWith('└') ? '   ' : '│  ');
    for (const [i, part] of parts.entries()) {
      visit(made(opened.trace, part), inner, i === parts.length - 1 ? '└─ ' : '├─ ', level + 1);
    }
  };
  visit(root, '', '', 0);
  print('', '± is 2 sigma; laboratory results keep their 1 sigma, and calendar ages are median and sd.');
}

/** A row's cells as typed: `line 12: to_sediment 9.80 m, purpose before_run`. */
function typed(opened: Opened, row: { table: string; row_id: string }): string {
  const line = opened.line(row.row_id);
  const table = opened.document.tables.get(row.table);
  const cells = table?.rows.find((r) => r.line === line)?.cells;
  if (table === undefined || cells === undefined) return row.table;
  const hidden = new Set(['row_id', 'hole', 'by', 'device', 'note']);
  const words = table.columns.flatMap((column, i) =>
    hidden.has(column) || !cells[i] ? [] : [`${column} ${cells[i]}`],
  );
  return `${row.table} line ${line}: ${words.join(', ')}`;
}
