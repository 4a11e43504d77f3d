/** Writes checks/turck/campaign from the published tables: node --import tsx checks/turck/write.ts */
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

const title = 'Mary Hammock, from Turck 2014';
const folder = new URL('./campaign/', import.meta.url);
const data = (name: string) => readTable(new URL(`../depth/data/${name}.csv`, import.meta.url));

let document: CampaignDocument = { ...newDocument(title), tables: new Map() };
for (const [table, rows] of Object.entries(convert(data('cores'), data('layers'))))
  document = withRows(document, table, rows);
document = { ...document, package: newPackage(title, document.tables) };

mkdirSync(folder, { recursive: true });
for (const [path, bytes] of writeFiles(document)) writeFileSync(new URL(path, folder), bytes);
