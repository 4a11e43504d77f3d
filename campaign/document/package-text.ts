/** The text of `datapackage.json`: a line for each small thing, so that columns are read, and compared, line by line. */
import type { Json, JsonObject } from './document.ts';

/** Longer things are written over several lines: nearly every column fits into one. */
const LINE = 320;

export const packageText = (description: JsonObject): string => `${written(description, '')}\n`;

function written(value: Json, indent: string): string {
  const flat = inLine(value);
  if (indent.length + flat.length <= LINE || typeof value !== 'object' || value === null) return flat;
  const deeper = `${indent}  `;
  const parts = isList(value)
    ? value.map((each) => `${deeper}${written(each, deeper)}`)
    : members(value).map(([name, each]) => `${deeper}${JSON.stringify(name)}: ${written(each, deeper)}`);
  const [open, close] = isList(value) ? '[]' : '{}';
  return `${open}\n${parts.join(',\n')}\n${indent}${close}`;
}

const isList = (value: Json): value is readonly Json[] => Array.isArray(value);

const members = (value: JsonObject): [string, Json][] =>
  Object.entries(value).flatMap(([name, each]) => (each === undefined ? [] : [[name, each]]));

function inLine(value: Json): string {
  if (isList(value)) return `[${value.map(inLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const parts = members(value).map(([name, each]) => `${JSON.stringify(name)}: ${inLine(each)}`);
  return parts.length === 0 ? '{}' : `{ ${parts.join(', ')} }`;
}
