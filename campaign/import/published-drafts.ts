/** Points from the literature: errors that differ up and down, ages in years CE. */
import { negated, readDecimal, sum, writeDecimal } from './decimal.ts';
import type { Draft } from './draft.ts';
import type { Mapping } from './mapping.ts';
import { atSigma, ourCell } from './read-cell.ts';
import { targetsOf } from './targets.ts';
import { larger } from './their-number.ts';

/** Errors that differ up and down give the larger; years CE become years before 1950. */
export function published(draft: Draft, mapping: Mapping): void {
  const targets = targetsOf('published-points');
  const { said } = draft.given;
  for (const [ours, one, other] of [
    ['rsl_2sigma_m', 'rsl error up', 'rsl error down'],
    ['age_2sigma_yr', 'age error older', 'age error younger'],
  ] as const) {
    const errors = [one, other].flatMap((name) => {
      const cell = said.get(name);
      if (cell === undefined) return [];
      const read = ourCell(ours, targets.get(ours)!.column, cell, mapping);
      if (read.fault !== null) draft.faults.push({ column: cell.column.heading, fault: read.fault });
      return read.cell === null ? [] : [atSigma(read.cell, cell.column.sigma ?? 1, 2)];
    });
    if (errors.length === 0 || draft.cells[ours] !== undefined) continue;
    const error = errors.reduce(larger);
    draft.cells[ours] = error;
    if (new Set(errors).size > 1) {
      draft.notes.push(
        `${said.get(one)!.column.heading} ${said.get(one)!.text}, ${said.get(other)!.column.heading} ${said.get(other)!.text}: the larger is written`,
      );
    }
  }
  const year = said.get('age_ce');
  if (year === undefined || draft.cells['age_cal_bp'] !== undefined) return;
  const read = ourCell('age_ce', targets.get('age_ce')!.column, year, mapping);
  const ce = readDecimal(read.cell ?? '');
  if (read.fault !== null) draft.faults.push({ column: year.column.heading, fault: read.fault });
  if (ce !== null) draft.cells['age_cal_bp'] = writeDecimal(sum({ digits: 1950n, scale: 0 }, negated(ce)));
}
