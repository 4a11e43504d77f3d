/** What only a person can say of a table of activities. */
import { LEAD_NAMES } from '@stillstand/science/lead';
import type { Given } from './given.ts';
import type { MappedColumn, Mapping } from './mapping.ts';
import type { Decision } from './proposal.ts';
import { readTheirNumber } from './their-number.ts';

const ACTIVITIES = ['Bq/kg', 'mBq/g', 'Bq/g', 'dpm/g', 'pCi/g'];
const DENSITIES = ['g/cm3', 'kg/m3'];

/** Columns with errors, in cells of their own or behind the value. */
export const isOfActivity = ({ to, property }: MappedColumn): boolean =>
  (to === 'measurement' || to === 'measurement error') && property !== LEAD_NAMES.density;

export const hasSupported = ({ columns }: Mapping): boolean =>
  columns.some(
    ({ to, property }) =>
      to === 'measurement' && (property === LEAD_NAMES.supported || property === LEAD_NAMES.excess),
  );

const NONE = { heading: null, choices: [], words: [] };

export function activityDecisions(mapping: Mapping, givens: readonly Given[]): Decision[] {
  return [
    ...units(mapping, givens),
    ...sigma(mapping, givens),
    ...limits(mapping, givens),
    ...thickness(mapping, givens),
  ];
}

const cellsOf = ({ column }: MappedColumn, givens: readonly Given[]): string[] =>
  givens.flatMap(({ many }) => many.flatMap((said) => (said.column.column === column ? said.text : [])));

const measured = ({ columns }: Mapping): MappedColumn[] => columns.filter(({ to }) => to === 'measurement');

/** Only where a cell does not say it itself. */
function units(mapping: Mapping, givens: readonly Given[]): Decision[] {
  const { decimal_comma } = mapping;
  const isBare = (text: string): boolean => {
    const read = readTheirNumber(text, decimal_comma);
    return read.kind === 'number' && read.unit === null && read.value !== '';
  };
  return measured(mapping).flatMap((column) => {
    if (column.unit !== null || !cellsOf(column, givens).some(isBare)) return [];
    const choices = column.property === LEAD_NAMES.density ? DENSITIES : ACTIVITIES;
    const { heading } = column;
    const question = `In what unit is “${heading}”?`;
    return [{ ...NONE, where: `columns.${column.column}.unit`, heading, question, taken: null, choices }];
  });
}

/** Asked once for all: a laboratory does not change it within a table. */
function sigma({ columns, decimal_comma }: Mapping, givens: readonly Given[]): Decision[] {
  const hasError = (column: MappedColumn): boolean =>
    column.to === 'measurement error' ||
    cellsOf(column, givens).some((text) => {
      const read = readTheirNumber(text, decimal_comma);
      return read.kind === 'number' && read.error !== null;
    });
  const asked = columns.filter(
    (column) => isOfActivity(column) && column.sigma === undefined && hasError(column),
  );
  if (asked.length === 0) return [];
  const named = asked.slice(0, 6).map(({ heading }) => `“${heading}”`);
  const question = `Are the errors 1 sigma or 2 (${named.join(', ')})?`;
  return [{ ...NONE, where: 'sigma', question, taken: '1', choices: ['1', '2'] }];
}

/** A cell that says no more than “not detected” is a limit only with the number it lies below. */
function limits(mapping: Mapping, givens: readonly Given[]): Decision[] {
  const { columns, decimal_comma } = mapping;
  return measured(mapping).flatMap((column) => {
    const hasLimits = columns.some(
      ({ to, property }) => to === 'measurement limit' && property === column.property,
    );
    if (hasLimits || (column.limit ?? '') !== '') return [];
    const undetected = cellsOf(column, givens).filter((text) => {
      const read = readTheirNumber(text, decimal_comma);
      return read.kind === 'number' && read.value === '' && read.qualifier === 'less_than';
    });
    if (undetected.length === 0) return [];
    const { heading, unit } = column;
    const words = [...new Set(undetected)].slice(0, 3).map((word) => `“${word}”`);
    const question = `Below what is ${words.join(', ')} in “${heading}”${unit === null ? '' : `, in ${unit}`}?`;
    const taken = 'not stated: such cells count as not measured';
    return [{ ...NONE, where: `columns.${column.column}.limit`, heading, question, taken }];
  });
}

function thickness({ columns, fixed, decimal_comma }: Mapping, givens: readonly Given[]): Decision[] {
  const isFilled = (to: string): boolean => columns.some((column) => column.to === to);
  if (!isFilled('depth') || isFilled('bottom') || isFilled('thickness') || (fixed['thickness'] ?? '') !== '')
    return [];
  const isRange = ({ said }: Given): boolean => {
    const read = readTheirNumber(said.get('depth')?.text ?? '', decimal_comma);
    return read.kind !== 'number' || read.range !== null;
  };
  if (givens.every(isRange)) return [];
  const question = 'How thick are the slices, where only one depth of each is stated (such as 1 cm)?';
  const taken = 'one below the other from the surface, their middles stated';
  return [{ ...NONE, where: 'fixed.thickness', question, taken }];
}
