/** From a sheet and its mapping to the rows that would be added, every line explained. Nothing is changed. */
import type { Problem } from '@stillstand/campaign/problems';
import { problem } from '@stillstand/campaign/problems';
import { type DocRow, nextSeq } from '@stillstand/campaign/replica';
import { schemas, type TableName } from '@stillstand/campaign/tables';
import { activityDrafts } from './activity-drafts.ts';
import { decisionsFor } from './decisions.ts';
import { densityDrafts } from './density-drafts.ts';
import type { Draft, FromLine } from './draft.ts';
import { draftsOf } from './drafts.ts';
import { type Given, givenIn, type Said } from './given.ts';
import type { Here } from './here.ts';
import { layerDrafts } from './layer-drafts.ts';
import { isComment, isTypesLine, notARow } from './layout.ts';
import type { Kind, Mapping } from './mapping.ts';
import { nameChecks } from './names.ts';
import { neverSent } from './never-sent.ts';
import { profilesMade } from './profiles-made.ts';
import type { LineOutcome, Proposal, ProposedRow } from './proposal.ts';
import { faultsOf, finished } from './row-checks.ts';
import type { Context } from './sampled.ts';
import { labelHere, samplesAt } from './samples-at.ts';
import type { TheirLine, TheirSheet } from './sheet.ts';

/** What would be added to a campaign. Pure; every line of the sheet has exactly one outcome. */
export function proposed(here: Here, sheet: TheirSheet, mapping: Mapping): Proposal {
  const lines = new Map<number, LineOutcome>();
  const aside = (line: number, why: string): void =>
    void lines.set(line, { line, outcome: 'set_aside', why });
  const givens = rowsIn(sheet, mapping, aside);
  const holes = new Set(here.rows('holes').map((row) => row['hole'] ?? ''));
  const context: Context = {
    mapping,
    samples: samplesAt(here, mapping.same_depth),
    holeCalled: (typed) => labelHere(typed, holes) ?? typed,
  };
  const fromLines: FromLine[] =
    mapping.as === 'layers'
      ? layerDrafts(givens, context)
      : mapping.as === 'lead-profiles'
        ? activityDrafts(givens, context)
        : mapping.as === 'age-densities'
          ? densityDrafts(givens, mapping, here)
          : givens.map((given) => draftsOf(given, context));

  const problems: Problem[] = [];
  const complained = new Set<string>();
  const names = nameChecks(here);
  const unsent = neverSent(here);
  const rows: ProposedRow[] = [];
  const seqs = seqsAfter(here);
  for (const [i, from] of fromLines.entries()) {
    const { line } = givens[i]!;
    if ('aside' in from) {
      aside(line, from.aside);
      continue;
    }
    const outcome = used(from.drafts);
    if (lines.has(line)) continue;
    lines.set(line, { line, ...outcome });
  }
  const made = madeRows();
  return {
    rows: [...made, ...rows, ...profiles()],
    lines: sheet.lines.map(({ line }) => lines.get(line)!),
    found: context.samples.found.filter(({ line }) => lines.get(line)?.outcome === 'used'),
    problems,
    decisions: decisionsFor(sheet, mapping, givens, lacking()),
  };

  /** Takes the drafts of a line that can be used; says what is wrong with the others. */
  function used(drafts: readonly Draft[]): Omit<LineOutcome, 'line'> {
    let taken = 0;
    let known: string | null = null;
    let wrong: string | null = null;
    for (const [at, draft] of drafts.entries()) {
      const cells = finished(draft, mapping, at === 0);
      const own = faultsOf(draft.table, cells).filter(
        ({ column, fault }) => fault.code !== 'missing' || !draft.tried.has(column),
      );
      const faults = [...draft.faults, ...own];
      if (faults.length === 0) faults.push(...names.missing(draft.table, cells, draft.line));
      if (faults.length === 0) faults.push(...names.twice(draft.table, cells, draft.line));
      for (const { column, fault } of faults) complain(said(draft, column, fault));
      if (faults.length > 0) {
        const [{ column, fault }] = faults as [(typeof faults)[number]];
        wrong ??= `${column}: ${fault.found === '' ? 'nothing' : `“${fault.found}”`}; expected ${fault.expected}`;
        continue;
      }
      const before = names.known(draft.table, cells, draft.line);
      if (before !== null) {
        known ??= before;
        continue;
      }
      names.take(draft.table, cells, draft.line);
      const doubt = draft.table === 'determinations' ? unsent(cells['sample'] ?? '') : null;
      if (doubt !== null) complain({ ...said(draft, 'sample', doubt), severity: 'warning' });
      rows.push({ table: draft.table, cells: seqs(draft.table, cells), line: draft.line, made: false });
      taken++;
    }
    if (taken > 0) return { outcome: 'used', why: countedRows(taken, drafts.length - taken) };
    return wrong === null
      ? { outcome: 'set_aside', why: known ?? 'nothing in the columns that are used' }
      : { outcome: 'problem', why: wrong };
  }

  /** Columns of ours that not one line has anything for. */
  function lacking(): ReadonlySet<string> {
    const rowed = [...lines.values()].filter(({ outcome }) => outcome !== 'set_aside').length;
    const missing = problems.filter(({ code }) => code === 'missing');
    const of = Map.groupBy(missing, ({ column }) => column ?? '');
    return new Set([...of].flatMap(([column, each]) => (each.length === rowed ? [column] : [])));
  }

  /** What several rows of a line share is named once. */
  function complain(about: Problem): void {
    const { line, column, code, found } = about;
    const key = [line, column, code, found].join('\u0000');
    if (complained.has(key)) return;
    complained.add(key);
    problems.push(about);
  }

  function said(
    draft: Draft,
    column: string,
    fault: { code: string; found: string; expected: string; fix: string },
  ) {
    const label = Object.values(draft.cells)[0] ?? null;
    return problem({ severity: 'error', table: sheet.name, line: draft.line, label, column, ...fault });
  }

  /** A profile of lead-210 for each core that has none; what is said of it and cannot be read is named, and left out. */
  function profiles(): ProposedRow[] {
    if (mapping.as !== 'lead-profiles') return [];
    const { made, unread } = profilesMade(here, rows, givens, mapping);
    for (const { line, hole, column, fault } of unread)
      problems.push(problem({ ...fault, severity: 'warning', table: sheet.name, line, label: hole, column }));
    return made;
  }

  /** Sites, datums and samples that rows which are used name. */
  function madeRows(): ProposedRow[] {
    const wanted = new Set(rows.map(({ cells }) => cells['sample'] ?? ''));
    const samples = context.samples.made.filter(({ cells }) => wanted.has(cells['sample']!));
    return [...names.made(rows), ...samples];
  }
}

const countedRows = (taken: number, left: number): string =>
  `${taken} ${taken === 1 ? 'row' : 'rows'}${left === 0 ? '' : `, ${left} not`}`;

/** Lines that may be rows, by what their cells are for; the others are set aside. */
function rowsIn(sheet: TheirSheet, mapping: Mapping, aside: (line: number, why: string) => void): Given[] {
  const headings = sheet.lines.filter(({ line }) => mapping.headings.includes(line));
  const out = new Set(mapping.leave_out);
  const columns = mapping.columns.filter(({ heading }) => heading !== '').length;
  const givens: Given[] = [];
  let hole: Said | null = null;
  for (const line of sheet.lines) {
    const why = whyNoRow(line, mapping, headings, out, columns);
    if (why !== null) {
      aside(line.line, why);
      continue;
    }
    const given = givenIn(line, mapping);
    const own = given.said.get('hole');
    if (own !== undefined) hole = own;
    else if (
      mapping.fill_down &&
      hole !== null &&
      mapping.as !== 'cores' &&
      given.said.size + given.many.length > 0
    ) {
      given.said.set('hole', hole);
    }
    givens.push(given);
  }
  return givens;
}

/** Files of curves begin lines of words with a #. */
const HAS_COMMENTS: ReadonlySet<Kind> = new Set(['calibration-curves', 'age-densities']);

function whyNoRow(
  line: TheirLine,
  mapping: Mapping,
  headings: readonly TheirLine[],
  out: ReadonlySet<number>,
  columns: number,
): string | null {
  if (mapping.headings.includes(line.line)) return 'headings';
  if (line.line === mapping.units) return 'units';
  if (line.line <= mapping.begin_below)
    return isTypesLine(line) ? 'types of the columns' : 'above the headings';
  if (out.has(line.line)) return 'left out';
  if (HAS_COMMENTS.has(mapping.as) && isComment(line)) return 'a comment';
  return notARow(line, headings, columns);
}

/** Readings get the place in their series that comes next. */
function seqsAfter(here: Here) {
  const last = new Map<string, number>();
  const rowsOf = (table: TableName): DocRow[] =>
    here.rows(table).map((cells) => ({ row_id: '', line: 0, cells }));
  return (table: TableName, cells: Record<string, string>): Record<string, string> => {
    if (!schemas[table].readings || (cells['seq'] ?? '') !== '') return cells;
    const series = `${cells['hole'] ?? ''}\u0000${cells['loop'] ?? ''}`;
    const next = last.has(series) ? last.get(series)! + 1 : Number(nextSeq(cells, rowsOf));
    last.set(series, next);
    return { ...cells, seq: String(next) };
  };
}
