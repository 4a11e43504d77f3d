/** `stillstand replay`: a hole's story, reading by reading. */
import type { Amendment } from '@stillstand/campaign/document';
import { admitted, RIG_TABLES } from '@stillstand/campaign/holes';
import { atLeast } from '@stillstand/science/base';
import {
  linkHoles,
  paceTrend,
  type ReplayChange,
  type ReplayStep,
  reconcile,
  replayHole,
} from '@stillstand/science/rig';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { disputedOf, disputedWords } from '../disputed.ts';
import { openRigHole, type RigHole } from '../open-hole.ts';
import { print, sayJson, sayProblems } from '../say.ts';

export const replay: Command = {
  name: 'replay',
  summary: 'Replay a hole reading by reading: its state, what changed, what was wrong or unsafe.',
  usage: ['replay FOLDER HOLE [--json]'],
  options: {},
  more: [
    'Lengths in metres: stick-up above the reference, the rest below the collar or the ground as named. Amended readings',
    'and moved readings are shown with what was written first, withdrawn ones in their place, and where amendments differ,',
    'each of them.',
    'Pushes of a tube or hand corer are counted, not shown. Exit code 1 where a reading cannot be used or something was dangerous, then or now;',
    'a loss that the hole’s state (lost) admits is a note.',
  ].join('\n'),
  run,
};

/** A reading that was amended, as it was written. */
interface Amended {
  seq: number;
  line: number | null;
  by_line: number | null;
  kind: Amendment['kind'];
  table: string;
  /** Column and what stood there first; what replaced it. */
  cells: { column: string; was: string; is: string | null }[];
}

async function run(words: Words): Promise<ExitCode> {
  const [folder, name, ...others] = words.positionals;
  if (folder === undefined || name === undefined || others.length > 0)
    throw new WrongUse('Expected a campaign folder and one hole');
  const hole = await openRigHole(folder, name);
  const pushes = hole.campaign.rows.pushes.filter((p) => p.hole === name).length;
  const { steps: found, fold } = replayHole(hole.readings, hole.settings);
  const steps = found.map((step) => ({
    ...step,
    findings: step.findings.map((f) => admitted(f, hole.row)),
  }));
  const { replaced, withdrawn } = amendedOf(hole);
  const disputed = disputedOf(hole);
  const trend = paceTrend(fold.drives);
  const account = reconcile(fold.account);
  const link = linkHoles(hole.campaign.rows.holes).find((l) => l.hole === name)!;
  if (words.flag('json')) {
    const told = steps.map((step, i) => {
      const { table, time } = hole.entries[i]!;
      return {
        ...step,
        table,
        time,
        line: hole.campaign.lines.get(step.row_id) ?? null,
        amended: replaced.get(step.row_id) ?? [],
      };
    });
    sayJson({
      hole: name,
      link,
      steps: told,
      withdrawn,
      disputed,
      drives: fold.drives,
      trend,
      stands: fold.stands,
      account,
    });
  } else {
    for (const line of head(link)) print(line);
    // What is not used is shown in its place.
    const unused = [
      ...withdrawn.map((a) => ({ seq: a.seq, words: goneWords(a) })),
      ...disputed.map((d) => ({ seq: d.seq, words: disputedWords(d) })),
    ].sort((a, b) => a.seq - b.seq);
    let at = 0;
    steps.forEach((step, i) => {
      for (; at < unused.length && unused[at]!.seq <= step.seq; at++) print(unused[at]!.words);
      sayStep(step, hole.entries[i]!.time, replaced.get(step.row_id) ?? []);
    });
    for (const { words } of unused.slice(at)) print(words);
    for (const line of tail(trend, account)) print(line);
    if (pushes > 0) print(`Pushes: ${pushes}, in the table pushes; only the string is shown here.`);
  }
  // What is wrong with a reading stands beside it; to standard error goes what no step can show.
  const shown = new Set(steps.flatMap((s) => s.findings.map((f) => `${f.code} ${f.row_id}`)));
  sayProblems(
    words.flag('json') ? hole.problems : hole.problems.filter((p) => !shown.has(`${p.code} ${p.row_id}`)),
  );
  return hole.problems.some((p) => p.severity === 'danger' || p.severity === 'error') ? 1 : 0;
}

const IDENTITY = new Set(['row_id', 'amends', 'amend_kind', 'time', 'by', 'device', 'seq', 'note']);

function amendedOf(hole: RigHole): { replaced: Map<string, Amended[]>; withdrawn: Amended[] } {
  const { campaign, document } = hole;
  const byLine = new Map(
    RIG_TABLES.map((table) => {
      const { columns = [], rows = [] } = document.tables.get(table) ?? {};
      return [
        table as string,
        new Map(rows.map((r) => [r.line, new Map(columns.map((c, i) => [c, (r.cells[i] ?? '').trim()]))])),
      ];
    }),
  );
  const cells = (table: string, row_id: string) => byLine.get(table)?.get(campaign.lines.get(row_id) ?? -1);
  const replaced = new Map<string, Amended[]>();
  const withdrawn: Amended[] = [];
  const amendments = campaign.amendments.filter((a) => byLine.has(a.table));
  const replacementOf = (row_id: string) =>
    amendments.find((a) => a.row_id === row_id && a.kind === 'replace');
  for (const { table, row_id, by_row_id, kind } of amendments) {
    const was = cells(table, row_id);
    const is = cells(table, by_row_id);
    if (was === undefined || (was.get('hole') !== hole.name && is?.get('hole') !== hole.name)) continue;
    const amended: Amended = {
      seq: Number(was.get('seq')),
      line: campaign.lines.get(row_id) ?? null,
      by_line: campaign.lines.get(by_row_id) ?? null,
      kind,
      table,
      cells: [...was]
        .filter(([column, text]) =>
          kind === 'move'
            ? column === 'seq'
            : !IDENTITY.has(column) && column !== 'hole' && text !== (is?.get(column) ?? ''),
        )
        .map(([column, text]) => ({
          column,
          was: text,
          is: kind === 'withdraw' ? null : (is?.get(column) ?? ''),
        })),
    };
    if (kind === 'withdraw') {
      withdrawn.push({ ...amended, cells: amended.cells.filter((c) => c.was !== '') });
      continue;
    }
    // a replacement may have been replaced in turn: it is told where the last one stands
    let standing = kind === 'move' ? row_id : by_row_id;
    for (let next = replacementOf(standing); next !== undefined; next = replacementOf(standing)) {
      standing = next.by_row_id;
    }
    replaced.set(standing, [...(replaced.get(standing) ?? []), amended]);
  }
  return { replaced, withdrawn: withdrawn.sort((a, b) => a.seq - b.seq) };
}

function head(link: ReturnType<typeof linkHoles>[number]): string[] {
  const away = (m: number | null) => (m === null ? 'offset not stated' : `${m.toFixed(2)} m away`);
  return [
    ...link.before.map((b) => `Hole ${link.hole} replaces ${b.hole}, ${away(b.distance_to_replaced_m)}.`),
    ...link.after.map((a) => `Hole ${a.hole} replaces it, ${away(a.distance_to_replaced_m)}.`),
    ...link.doubts.map((d) => `warning: ${d}.`),
  ];
}

const INDENT = ' '.repeat(6);

function sayStep(step: ReplayStep, time: string | null, amended: readonly Amended[]): void {
  const clock = time === null ? '' : `  (${time.slice(0, 16).replace('T', ' ')})`;
  print(`${String(step.seq).padStart(4)}  ${step.did}${clock}`);
  if (step.changed.length > 0) print(INDENT + step.changed.map(sayChange).join(' · '));
  for (const a of amended) {
    const what = a.cells.map((c) => `${c.column} ${quoted(c.was)} → ${quoted(c.is ?? '')}`).join(', ');
    print(
      `${INDENT}amended: ${what === '' ? 'nothing of weight' : what} (line ${a.line}, by line ${a.by_line})`,
    );
  }
  for (const f of step.findings) {
    print(`${INDENT}${f.severity}: ${f.found}; expected ${f.expected}. ${f.fix}`);
  }
}

function goneWords(a: Amended): string {
  const what = a.cells.map((c) => `${c.column} ${c.was}`).join(', ');
  return `${String(a.seq).padStart(4)}  withdrawn from ${a.table}: ${what} (line ${a.line}, by line ${a.by_line})`;
}

const quoted = (text: string): string => (text === '' ? 'nothing' : `“${text}”`);

function sayChange({ what, from_m, to_m }: ReplayChange): string {
  const m = (x: number | null) => (x === null ? 'unknown' : `${x < 0 ? '−' : ''}${Math.abs(x).toFixed(2)}`);
  return from_m === null ? `${what} ${m(to_m)}` : `${what} ${m(from_m)} → ${m(to_m)}`;
}

function tail(trend: ReturnType<typeof paceTrend>, account: ReturnType<typeof reconcile>): string[] {
  const { items } = account;
  const lines = [''];
  if (trend !== null) {
    lines.push(
      `Rate over ${trend.drives} drives: ${trend.verdict}, ${trend.rate_m_per_min.toFixed(2)} m/min at the last${trend.halving_m === null ? '' : `, halving in ${trend.halving_m.toFixed(1)} m`}.`,
    );
  }
  const fates = Object.entries(items).filter(([, n]) => n > 0);
  lines.push(
    `Account: ${fates.map(([fate, n]) => `${n} ${fate}`).join(', ') || 'nothing went in'}; ${account.added_m.toFixed(2)} m in, ${account.back_m.toFixed(2)} m back, ${account.in_ground_m.toFixed(2)} m not back (${atLeast(account.in_ground_made_up_m, 2).toFixed(2)} m in the ground, made up).`,
  );
  for (const line of account.says) lines.push(`  ${line}`);
  if (account.unmeasured.length > 0) lines.push(`  not measured: ${account.unmeasured.join(', ')}`);
  return lines;
}
