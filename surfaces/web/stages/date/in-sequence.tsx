/** What the sequence of a date makes of it, under what it is alone. */
import { years } from '@stillstand/output/words';
import type { Computation } from '../../compute/index.ts';
import { setWords } from './set-words.ts';

export function InSequence({ labCode, results }: { labCode: string } & Pick<Computation, 'results'>) {
  const date = results?.dates.find(({ lab_code }) => lab_code === labCode);
  if (date === undefined || date.sequence === null) return null;
  const sets = date.sets_95.map((set) => setWords(set, date.sets_95.length > 1)).join(', ');
  return (
    <p className="quiet">
      Alone. In the sequence {date.sequence}: {years(date.median_cal_bp)} cal BP, 95 % {sets}
    </p>
  );
}
