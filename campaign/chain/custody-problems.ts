/** Entries of custody that cannot be so: each is a warning, and used as entered. */
import type { Campaign } from '@stillstand/campaign/document';
import { RIG_TABLES } from '@stillstand/campaign/holes';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { dateOf } from '@stillstand/campaign/tables';
import { dayOf, type Entry, entriesByThing } from './entries.ts';
import { type KeptThing, keptThings, thingKey, thingName } from './thing.ts';

type Tables = Pick<Campaign, 'rows' | 'lines'>;
type Said = Pick<Problem, 'code' | 'column' | 'found' | 'expected' | 'fix'>;

/** How an action is said of a thing. */
const DONE: Readonly<Record<Entry['action'], string>> = {
  stored: 'stored',
  opened: 'opened',
  sampled: 'sampled',
  sent: 'sent',
  arrived: 'arrived at the laboratory',
  result: 'result received',
  returned: 'returned',
  lent: 'lent',
  discarded: 'discarded',
};
/** What needs the piece at hand. */
const AT_HAND: ReadonlySet<Entry['action']> = new Set(['opened', 'sampled', 'sent', 'lent', 'discarded']);

export function custodyProblems(campaign: Tables): Problem[] {
  const things = keptThings(campaign);
  const entries = entriesByThing(campaign, things);
  const taken = takenDays(campaign);
  // An entry about a whole core is about its parts too: it is named once, and first for the core.
  const named = new Set<string>();
  const ofThings = things.flatMap((kept) => {
    const of = entries.get(thingKey(kept.thing))!;
    return of.flatMap((entry, i) =>
      [afterDiscarding(of, i), whileLent(of, i), neverSent(of, i), beforeTaken(entry, taken(kept))].flatMap(
        (said): Problem[] => {
          if (said === null || named.has(`${entry.row_id} ${said.code}`)) return [];
          named.add(`${entry.row_id} ${said.code}`);
          return [told(campaign, entry, thingName(kept.thing), said)];
        },
      ),
    );
  });
  return [...ofThings, ...aboutNothing(campaign, things)];
}

const told = ({ lines }: Tables, { row_id }: Entry, label: string | null, said: Said): Problem =>
  problem({
    severity: 'warning',
    table: 'custody',
    row_id,
    line: lines.get(row_id) ?? null,
    label,
    ...said,
  });

const said = (entry: Entry): string => {
  const day = dayOf(entry);
  return `${DONE[entry.action]}${day === null ? '' : ` on ${day}`}`;
};

/** The last entry before that says where the piece is. */
const before = (of: readonly Entry[], i: number): Entry | undefined =>
  of.slice(0, i).findLast(({ action }) => action !== 'result');

function afterDiscarding(of: readonly Entry[], i: number): Said | null {
  const entry = of[i]!;
  const last = before(of, i);
  if (entry.action === 'result' || last?.action !== 'discarded') return null;
  return {
    code: 'custody-after-discarding',
    column: 'action',
    found: `${said(entry)}, ${said(last)} before`,
    expected: 'no entry but a result after it was discarded',
    fix: 'Amend whichever is wrong: the date, the sample or core, or the action. The last entry is used.',
  };
}

function whileLent(of: readonly Entry[], i: number): Said | null {
  const entry = of[i]!;
  const loan = of
    .slice(0, i)
    .findLast(({ action }) => ['lent', 'returned', 'stored', 'discarded'].includes(action));
  if (!AT_HAND.has(entry.action) || loan?.action !== 'lent') return null;
  return {
    code: 'custody-while-lent',
    column: 'action',
    found: `${said(entry)}, ${said(loan)}${loan.laboratory === null ? '' : ` to ${loan.laboratory}`} and not returned`,
    expected: 'a piece that is back from its loan',
    fix: 'Enter when it was returned, or amend whichever entry is wrong. Both are used as entered.',
  };
}

const BACK: Readonly<
  Partial<Record<Entry['action'], { from: readonly Entry['action'][]; expected: string }>>
> = {
  arrived: { from: ['sent'], expected: 'an entry that it was sent, before it arrived' },
  result: { from: ['sent'], expected: 'an entry that it was sent, before its result' },
  returned: { from: ['sent', 'lent'], expected: 'an entry that it was sent or lent, before it was returned' },
};

function neverSent(of: readonly Entry[], i: number): Said | null {
  const entry = of[i]!;
  const rule = BACK[entry.action];
  if (rule === undefined || of.slice(0, i).some(({ action }) => rule.from.includes(action))) return null;
  return {
    code: 'custody-never-sent',
    column: 'action',
    found: said(entry),
    expected: rule.expected,
    fix: 'Enter when and where it went, or amend the date or the sample. It is used as entered.',
  };
}

function beforeTaken(entry: Entry, taken: { day: string; by: string } | null): Said | null {
  // The day of writing it down is no claim: a clock may be wrong.
  if (entry.date === null || taken === null || entry.date >= taken.day) return null;
  return {
    code: 'custody-before-taken',
    column: 'date',
    found: said(entry),
    expected: `a day from ${taken.day} on, when ${taken.by}`,
    fix: 'Amend the date, or the sample or core it is about. It is used as entered.',
  };
}

/** The first day something can have been there: that of its run or push, or else the first day of work at its hole. */
function takenDays({ rows }: Tables): (kept: KeptThing) => { day: string; by: string } | null {
  const ofRun = new Map<string, string | null>([
    ...rows.runs.map((row): [string, string | null] => [
      JSON.stringify([row.hole, row.run]),
      dateOf(row.time),
    ]),
    ...rows.pushes.map((row): [string, string | null] => [
      JSON.stringify([row.hole, row.push]),
      dateOf(row.time),
    ]),
  ]);
  const first = new Map<string, string>();
  for (const table of [...RIG_TABLES, 'pushes'] as const) {
    for (const { hole, time } of rows[table]) {
      const day = dateOf(time);
      const known = first.get(hole);
      if (day !== null && (known === undefined || day < known)) first.set(hole, day);
    }
  }
  const samples = new Map(rows.samples.map((row) => [row.sample, row]));
  return ({ thing, hole }) => {
    const run = thing.kind === 'core' ? thing.run : (samples.get(thing.sample)?.run ?? null);
    const day = run === null ? null : (ofRun.get(JSON.stringify([hole, run])) ?? null);
    if (day !== null) return { day, by: `${run} of hole ${hole} was recovered` };
    const begun = hole === null ? undefined : first.get(hole);
    return begun === undefined ? null : { day: begun, by: `work at hole ${hole} began` };
  };
}

/** Entries that name no sample and no core, or a core that its hole does not have. */
function aboutNothing(campaign: Tables, things: readonly KeptThing[]): Problem[] {
  const cores = new Set(
    things.flatMap(({ thing }) =>
      thing.kind === 'core' ? [JSON.stringify([thing.hole, thing.run]), JSON.stringify([thing.hole])] : [],
    ),
  );
  const nothing = ({
    sample,
    hole,
    run,
    tray,
  }: Entry): Pick<Said, 'column' | 'found' | 'expected'> | null => {
    if (sample !== null) return null;
    if (hole === null)
      return {
        column: 'sample',
        found: 'neither sample nor hole',
        expected: 'the sample, or the hole and run of a core',
      };
    if (run === null && tray !== null)
      return {
        column: 'run',
        found: `${tray} without a run`,
        expected: 'the run or push that it is part of',
      };
    if (run === null)
      return cores.has(JSON.stringify([hole]))
        ? null
        : { column: 'hole', found: `all cores of hole ${hole}`, expected: 'a hole that has a core' };
    return cores.has(JSON.stringify([hole, run]))
      ? null
      : { column: 'run', found: run, expected: `a run or push of hole ${hole} with a core` };
  };
  return campaign.rows.custody.flatMap((entry) => {
    const found = nothing(entry);
    if (found === null) return [];
    const fix = 'Amend it. Until then it is an entry of nothing.';
    return [told(campaign, entry, entry.hole, { code: 'custody-of-nothing', fix, ...found })];
  });
}
