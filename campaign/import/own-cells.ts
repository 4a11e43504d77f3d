/** Cells of a line that fill columns of the table itself, each as a cell of ours that says the same. */

import type { Column, TableName } from '@stillstand/campaign/tables';
import { textOf } from './core-place.ts';
import { type Draft, draftOf } from './draft.ts';
import type { Given, Said } from './given.ts';
import type { Kind, Mapping } from './mapping.ts';
import { atSigma, ourCell } from './read-cell.ts';
import { targetsOf } from './targets.ts';

/** The columns of the table itself. */
export function ownCells(given: Given, mapping: Mapping, table: TableName): Draft {
  const draft = draftOf(table, given);
  const targets = targetsOf(mapping.as);
  for (const [name, said] of given.said) {
    const target = targets.get(name)!;
    if (target.way === 'own' && !isOfDepth(mapping.as, name))
      putCell(draft, name, target.column, said, mapping);
  }
  return draft;
}

/** Depths of a sample are read together. */
const isOfDepth = (as: Kind, name: string): boolean =>
  (as === 'samples' || as === 'measurements' || as === 'layers') && (name === 'top' || name === 'bottom');

/** An error column of ours states its sigma in its name; otherwise it is 1 sigma. */
const isError = (name: string): boolean => /(?:^|_)(?:error|sigma|2sigma)(?:_|$)/.test(name);
const sigmaOf = (name: string): 1 | 2 => (name.includes('2sigma') ? 2 : 1);

export function putCell(draft: Draft, name: string, column: Column, said: Said, mapping: Mapping): void {
  const read = ourCell(name, column, said, mapping);
  draft.notes.push(...read.notes);
  if (read.fault !== null) {
    draft.tried.add(name);
    draft.faults.push({ column: said.column.heading, fault: read.fault });
    return;
  }
  const { number } = read;
  if (read.cell !== null) {
    const theirs = said.column.sigma ?? 1;
    draft.cells[name] = isError(name) ? atSigma(read.cell, theirs, sigmaOf(name)) : read.cell;
    if (isError(name) && theirs !== sigmaOf(name)) draft.notes.push(`${said.column.heading}: ${said.text}`);
  }
  if (draft.table === 'measurements' && name === 'value' && number?.unit != null)
    draft.cells['unit'] ??= number.unit;
  if (number?.qualifier == null && number?.error == null) return;
  const isLimited = name === 'value' && (draft.table === 'determinations' || draft.table === 'measurements');
  if (number.qualifier !== null) {
    if (isLimited) draft.cells['qualifier'] = number.qualifier;
    else draft.notes.push(`${said.column.heading}: ${said.text}`);
  }
  if (number.error === null) return;
  if (name === 'value' && draft.table === 'determinations') draft.cells['error'] ??= number.error;
  else if (name === 'value' && draft.table === 'measurements')
    draft.cells['sigma'] ??= atSigma(number.error, said.column.sigma ?? 1, 1);
  else draft.notes.push(`${said.column.heading}: ${said.text}`);
}

/** What is the same in every row that does not say it itself. */
export function withFixed(draft: Draft, { fixed, as }: Mapping): void {
  const targets = targetsOf(as);
  for (const [name, word] of Object.entries(fixed)) {
    if (word.trim() === '' || (draft.cells[name] ?? '') !== '') continue;
    if (targets.get(name)?.way === 'own') draft.cells[name] = word;
  }
}

/** A word that is the same in every row, or the line's own. */
export const wordOf = (given: Given, mapping: Mapping, name: string): string =>
  textOf(given, name) || (mapping.fixed[name] ?? '');
