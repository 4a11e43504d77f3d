/** A correlation of the table with the two units it names, as computed. */
import type { UnitResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';

/** A row that a person has decided, with the two units whose bases it names. */
export interface FoundCorrelation {
  row: Row<'correlations'>;
  isAccepted: boolean;
  hole_a: string;
  hole_b: string;
  a: UnitResult;
  b: UnitResult;
  horizon: string | null;
}
