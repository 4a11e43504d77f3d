/**
 * Holes to be planned, pasted a line each: label, position, target depth, site. From a spreadsheet with tabs or commas
 * between, with headings or without, or as somebody wrote them: "H1  46° 24.66′ S 121° 18.78′ W  target 12 m".
 */
import { columnOfHeading } from '@stillstand/campaign/import';
import { parseLength } from '@stillstand/campaign/tables';
import type { PlaneGrid, Position } from '@stillstand/science/survey';
import { type PositionCells, type PositionSaid, positionSaid } from '../../../positions/index.ts';

export interface PlaceLine {
  /** From 1, as in the text. */
  line: number;
  text: string;
  label: string;
  target: string;
  site: string;
  /** What the position was read as, and what speaks against it. */
  said: PositionSaid;
  /** Why it cannot be written down, a sentence each. */
  faults: string[];
}

/** What one line says, as typed. */
interface Parts {
  label: string;
  position: string;
  target: string;
  site: string;
}

export interface PlaceChoices {
  /** Unit of a depth without one; null where none is taken. */
  unit: 'm' | 'cm' | 'ft' | null;
  /** Positions of the campaign. */
  others: readonly (Position & { label: string })[];
  /** In which easting and northing are read; null for none. */
  grid: PlaneGrid | null;
  /** Labels of holes there are. */
  taken: ReadonlySet<string>;
  /** Other readings a person has chosen, by the text of the line. */
  chosen: Readonly<Record<string, PositionCells>>;
}

export function readPlaceLines(text: string, choices: PlaceChoices): PlaceLine[] {
  const lines = text
    .split(/\r\n|\r|\n/)
    .map((line, i) => ({ line: i + 1, text: line }))
    .filter((each) => each.text.trim() !== '');
  const isPlace: IsPlace = (text) => positionSaid(text, [], choices.grid).words !== null;
  const headings = headingsOf(lines[0]?.text ?? '');
  const read = lines.slice(headings === null ? 0 : 1).map((each) => {
    const parts = headings === null ? partsOf(each.text, isPlace) : headedParts(each.text, headings);
    return { ...each, parts, alone: positionSaid(parts.position, [], choices.grid) };
  });
  const counts = Map.groupBy(read, ({ parts }) => parts.label);
  // Of the list itself those that can be read are neighbours, too.
  const neighbours = read.flatMap(({ line, parts, alone }) => {
    const [latitude_deg, longitude_deg] = [alone.cells.latitude_deg, alone.cells.longitude_deg].map(Number);
    return alone.words === null
      ? []
      : [{ line, label: parts.label, latitude_deg: latitude_deg!, longitude_deg: longitude_deg! }];
  });
  return read.map(({ line, text, parts }) => {
    const others = [...choices.others, ...neighbours.filter((each) => each.line !== line)];
    const said = positionSaid(parts.position, others, choices.grid);
    const other = choices.chosen[text];
    const faults = [
      ...labelFaults(parts.label, counts.get(parts.label)?.length ?? 0, choices.taken),
      ...(said.fault === null ? [] : [said.fault]),
      ...(parts.position === '' ? ['No position: type one after the label.'] : []),
      ...targetFaults(parts.target, choices.unit),
    ];
    return {
      line,
      text,
      label: parts.label,
      target: withUnit(parts.target, choices.unit),
      site: parts.site,
      said: other === undefined ? said : { ...said, cells: other, cautions: [], instead: [] },
      faults,
    };
  });
}

function labelFaults(label: string, count: number, taken: ReadonlySet<string>): string[] {
  if (label === '') return ['No label: begin the line with the label of the hole.'];
  if (taken.has(label)) return [`Hole ${label} is there already: give this one another label.`];
  return count > 1 ? [`${count} lines are labelled ${label}: give each its own label.`] : [];
}

function targetFaults(target: string, unit: PlaceChoices['unit']): string[] {
  if (target === '') return [];
  const read = parseLength(withPoint(target), { unit });
  return read.ok ? [] : [`Target depth: found “${read.found}”; expected ${read.expected}. ${read.fix}`];
}

const withPoint = (target: string): string => target.replace(/(\d),(\d)/, '$1.$2');
const withUnit = (target: string, unit: PlaceChoices['unit']): string =>
  unit !== null && /\d$/.test(target) ? `${withPoint(target)} ${unit}` : withPoint(target);

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
/** "target 12 m", "to 40 ft" at the end, or with only a site behind it. */
const TARGET = new RegExp(
  String.raw`[\s,;(]+(?:target(?: depth)?|planned depth|depth|to)\s*[:=]?\s*(${NUMBER}\s*(?:m|cm|mm|ft|feet|foot|metres?|meters?|'|′)?\.?)\)?(?=$|[\s,;])`,
  'i',
);
const SITE = /[\s,;]+site\s*[:=]?\s+(\S.*)$/i;

/** As it was written, words between; where that gives no position, as cells with tab, semicolon or comma between. */
type IsPlace = (text: string) => boolean;

function partsOf(text: string, isPlace: IsPlace): Parts {
  const cells = cellsOf(text, isPlace);
  return cells === null ? freeParts(text, isPlace) : cellParts(cells, isPlace);
}

function cellsOf(text: string, isPlace: IsPlace): string[] | null {
  const split = (by: RegExp): string[] => text.split(by).map((cell) => cell.trim());
  if (text.includes('\t')) return split(/\t/);
  if (text.includes(';')) return split(/;/);
  // A comma may be between the two halves of a position, too, or be a decimal mark.
  const isRead = isPlace(freeParts(text, isPlace).position);
  const cells = split(/,/);
  return !isRead && cells.length > 2 && (text.includes('.') || /, /.test(text)) ? cells : null;
}

function freeParts(text: string, isPlace: IsPlace): Parts {
  let rest = ` ${text.trim()}`;
  const take = (pattern: RegExp): string => {
    const found = pattern.exec(rest);
    if (found === null) return '';
    rest = rest.replace(found[0], ' ');
    return found[1]!.trim().replace(/[.,;]$/, '');
  };
  const site = take(SITE);
  const target = take(TARGET);
  rest = rest.trim().replace(/[,;]+$/, '');
  if (isPlace(rest)) return { label: '', position: rest, target, site };
  const words = rest.split(/\s+/);
  // The label is as few words as leave a position behind them.
  for (let count = 1; count < Math.min(5, words.length); count++) {
    const position = words.slice(count).join(' ');
    if (isPlace(position))
      return { label: withoutMarks(words.slice(0, count).join(' ')), position, target, site };
  }
  return { label: withoutMarks(words[0] ?? ''), position: words.slice(1).join(' '), target, site };
}

const withoutMarks = (label: string): string => label.replace(/[,;:]+$/, '');

/** The position is the next cell, or the next two to four: latitude, longitude; zone, easting, northing. */
function cellParts(cells: readonly string[], isPlace: IsPlace): Parts {
  const [label = '', ...others] = cells;
  const rest = others.filter((cell) => cell !== '');
  const joined = (count: number): string => rest.slice(0, count).join(count === 2 ? ', ' : ' ');
  const count = [1, 2, 3, 4].find((each) => each <= rest.length && isPlace(joined(each)));
  const behind = rest.slice(count ?? (/[NSEW°]/i.test(rest[0] ?? '') ? 1 : 2));
  const target = behind.find((cell) => /^\D{0,8}\s*\d/.test(cell) && /\d/.test(cell)) ?? '';
  return {
    label: withoutMarks(label),
    position: joined(count ?? rest.length - behind.length),
    target: target.replace(/^\D+/, ''),
    site: behind.find((cell) => cell !== target)?.replace(/^site\s*[:=]?\s+/i, '') ?? '',
  };
}

/** What is planned has one depth: the one to reach. */
const TARGET_HEADING =
  /^(?:target|(?:(?:target|planned|hole)\s+)?depth)(?:\s+to\s+reach)?[\s,]*(?:[([]?(?:m|cm|mm|ft|feet|metres?)[)\]]?)?$/i;

const HEADED = [
  'hole',
  'position',
  'latitude_deg',
  'longitude_deg',
  'utm_zone',
  'easting',
  'northing',
  'target_depth',
  'site',
];

interface Headings {
  /** As written. */
  cells: string[];
  columns: (string | null)[];
  /** In the heading of the target depth. */
  unit: string;
}

/** What the first line heads its columns with; null where it is a line as the others. */
function headingsOf(text: string): Headings | null {
  const cells = text.split(/\t|[;,]/).map((cell) => cell.trim());
  const columns = cells.map((cell) => {
    if (/^(?:position|coordinates?|location)$/i.test(cell)) return 'position';
    return TARGET_HEADING.test(cell) ? 'target_depth' : columnOfHeading('cores', cell);
  });
  const known = columns.filter((column) => column !== null);
  if (!known.includes('hole') || known.length < 2) return null;
  const target = cells[columns.indexOf('target_depth')] ?? '';
  return { cells, columns, unit: /[\s([,](m|cm|ft)\b/i.exec(target)?.[1]?.toLowerCase() ?? '' };
}

/** The line of headings of a pasted list, which goes with every part of it; null where there is none. */
export function headingLine(text: string): string | null {
  const first = text.split(/\r\n|\r|\n/).find((line) => line.trim() !== '') ?? '';
  return headingsOf(first) === null ? null : first;
}

/** Headings whose columns are not read here, as written: they are said, so that none is missed. */
export function unreadHeadings(text: string): string[] {
  const headings = headingsOf(headingLine(text) ?? '');
  return (headings?.cells ?? []).filter(
    (cell, i) => cell !== '' && !HEADED.includes(headings!.columns[i] ?? ''),
  );
}

function headedParts(text: string, { columns, unit }: Headings): Parts {
  const cells = text.split(text.includes('\t') ? /\t/ : text.includes(';') ? /;/ : /,/);
  const cell = (column: string): string => cells[columns.indexOf(column)]?.trim() ?? '';
  const target = cell('target_depth');
  const [east, north] = [cell('easting'), cell('northing')];
  const position =
    cell('position') !== ''
      ? cell('position')
      : cell('latitude_deg') !== '' || cell('longitude_deg') !== ''
        ? [cell('latitude_deg'), cell('longitude_deg')].filter((half) => half !== '').join(', ')
        : east === '' && north === ''
          ? ''
          : `${cell('utm_zone')} E ${east} N ${north}`.trim();
  return {
    label: cell('hole'),
    position,
    target: unit !== '' && /\d$/.test(target) ? `${target} ${unit}` : target,
    site: cell('site'),
  };
}
