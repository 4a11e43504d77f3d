/** Writes checks/seasia/campaign from data/singapore.csv: node --import tsx checks/seasia/write.ts */
import { mkdirSync, writeFileSync } from 'node:fs';
import {
  type CampaignDocument,
  newDocument,
  newPackage,
  withRows,
  writeFiles,
} from '@stillstand/campaign/document';
import { readTable } from '../points/table.ts';
import { convert } from './convert.ts';

const title = 'Singapore, from Mann et al. 2019';
const folder = new URL('./campaign/', import.meta.url);

let document: CampaignDocument = newDocument(title);
const used = Object.entries(convert(readTable(new URL('./data/singapore.csv', import.meta.url))));
document = { ...document, tables: new Map() };
for (const [table, rows] of used) document = withRows(document, table, rows);
document = { ...document, package: newPackage(title, document.tables) };

mkdirSync(folder, { recursive: true });
for (const [path, bytes] of writeFiles(document)) writeFileSync(new URL(path, folder), bytes);
