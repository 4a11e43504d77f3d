/** A part of a point's error as it is declared: the row of `point_errors` it has, read and written. */
import type { DeclaredError, HeightError } from '@stillstand/science/points';
import type { DocRow, Store } from '../store/index.ts';
import { asDeclared } from './claim.ts';

export const cell = (row: DocRow, column: string): string => row.cells[column]?.trim() ?? '';

export function errorRow(store: Store, point: string, component: string): DocRow | undefined {
  return store
    .rows('point_errors')
    .find((row) => cell(row, 'point') === point && cell(row, 'component') === component);
}

/** Writes a part down: the row it has is edited, else it gets one. */
export function declare(store: Store, point: string, part: DeclaredError): void {
  const cells = {
    value_m: String(part.value_m),
    sigma_level: String(part.sigma_level),
    shape: part.shape,
    shared_group: part.shared_group ?? '',
  };
  const row = errorRow(store, point, part.component);
  if (row === undefined) store.addRow('point_errors', { point, component: part.component, ...cells });
  else store.editRow('point_errors', row.row_id, cells);
}

export function addPart(store: Store, point: string, component: string): void {
  declare(store, point, {
    component,
    value_m: 0.1,
    sigma_level: 2,
    shape: component === 'compaction' ? 'one_sided' : 'normal',
    shared_group: null,
    source: 'declared',
  });
}

export function declaredIn(row: DocRow, part: HeightError): DeclaredError {
  const value = Number(cell(row, 'value_m').replace(',', '.'));
  const shape = cell(row, 'shape');
  return {
    ...asDeclared(part),
    value_m: Number.isFinite(value) ? value : asDeclared(part).value_m,
    sigma_level: cell(row, 'sigma_level') === '1' ? 1 : 2,
    shape: shape === 'uniform' || shape === 'one_sided' ? shape : 'normal',
    shared_group: cell(row, 'shared_group') || null,
  };
}

export const isSame = (a: DeclaredError, b: DeclaredError): boolean =>
  a.value_m === b.value_m &&
  a.sigma_level === b.sigma_level &&
  a.shape === b.shape &&
  a.shared_group === b.shared_group;
