/** What holds for the loop as a whole: label, date, recorder, instrument, two-peg test, limit. */
import { printed } from '@stillstand/output/words';
import { levelDefaults } from '@stillstand/science/survey';
import { ColumnField } from '../../../parts/index.ts';
import type { LoopFacts } from './level-kept.ts';

const FIELDS: readonly (readonly [keyof LoopFacts, string, 'level_loops' | 'levelling'])[] = [
  ['loop', 'Label of the loop', 'level_loops'],
  ['date', 'Date', 'level_loops'],
  ['by', 'Recorder', 'levelling'],
  ['device', 'Instrument', 'levelling'],
  ['collimation_mm', 'Two-peg test, error', 'level_loops'],
  ['collimation_over_m', 'Two-peg test, length of sight', 'level_loops'],
  ['allowed_mm_sqrt_km', 'Largest misclosure, times √km', 'level_loops'],
];

const HELP: Partial<Record<keyof LoopFacts, string>> = {
  by: 'Who booked the readings: a role or initials. In each reading of the loop',
  device: 'Level and staff: what is painted on them. In each reading of the loop',
};

export function LevelFacts({
  facts,
  isNew,
  readOnly,
  onFact,
}: {
  facts: LoopFacts;
  isNew: boolean;
  readOnly: boolean;
  /** Of a loop that is not recorded with each key, to be kept; of one that is when the field is left. */
  onFact: (column: keyof LoopFacts, text: string) => void;
}) {
  return (
    <details className="level-facts">
      <summary>{factsWords(facts)}</summary>
      <div className="fields">
        {FIELDS.filter(([column]) => isNew || !FIXED.has(column)).map(([column, name, table]) => (
          <ColumnField
            key={column}
            table={table}
            column={column}
            name={name}
            value={facts[column]}
            disabled={readOnly}
            {...(HELP[column] === undefined ? {} : { help: { about: HELP[column] } })}
            {...(isNew ? { onType: (text: string) => onFact(column, text) } : {})}
            onCommit={(text) => onFact(column, isNew ? text : text.trim())}
          />
        ))}
      </div>
      <p className="quiet">
        {peggedWords(facts) ??
          'Test the level before the loop: two pegs, once from the middle, once from one end.'}
      </p>
    </details>
  );
}

/** In the readings themselves once they are recorded: amended there. */
const FIXED: ReadonlySet<keyof LoopFacts> = new Set(['loop', 'by', 'device']);

const number = (text: string): number =>
  text.trim() === '' ? Number.NaN : Number(text.replace(',', '.').replace('−', '-'));

/** "loop 3, 2026-02-14, recorder; level tested, 1.5 mm in 30 m; limit 12 mm × √km". */
function factsWords(facts: LoopFacts): string {
  const who = [facts.loop, facts.date, facts.by, facts.device]
    .filter((text) => text.trim() !== '')
    .join(', ');
  const [mm, over] = [number(facts.collimation_mm), number(facts.collimation_over_m)];
  const tested =
    Number.isFinite(mm) && over > 0
      ? `level tested, ${printed(mm, 1)} mm in ${printed(over, 0)} m`
      : 'level not tested';
  const limit = number(facts.allowed_mm_sqrt_km);
  return `${who}; ${tested}; limit ${printed(limit > 0 ? limit : levelDefaults.allowed_mm_sqrt_km, 0)} mm × √km`;
}

/** What the two-peg error does: nothing with equal sights. */
function peggedWords(facts: LoopFacts): string | null {
  const perMetre = number(facts.collimation_mm) / number(facts.collimation_over_m);
  if (!Number.isFinite(perMetre)) return null;
  return `Nothing is corrected: the error cancels where back and fore sight are equally long. Each 10 m of difference puts ${printed(Math.abs(10 * perMetre), 1)} mm into that set-up.`;
}
