/**
 * What the commands print. All of it goes through here: text of a campaign is data, so no character in it moves the
 * cursor, colours the screen, turns the writing round or begins a line that looks like one of ours.
 */
import { bySeverity, isFine, type Problem, problemLine } from '@stillstand/campaign/problems';
import type { ExitCode } from './command.ts';

/** Lines to standard output. */
export function print(...lines: readonly string[]): void {
  console.log(lines.map(visible).join('\n'));
}

/** Lines to standard error. */
export function printError(...lines: readonly string[]): void {
  console.error(lines.map(visible).join('\n'));
}

/** Exact for whoever parses it; what a terminal would obey stands in it as JSON escapes. */
export function sayJson(value: unknown): void {
  const text = JSON.stringify(value, null, 1);
  console.log(text.replace(OBEYED, (character) => (character === '\n' ? '\n' : escaped(character))));
}

/** Problems to standard error, the gravest first, and the exit code they call for. */
export function sayProblems(problems: readonly Problem[]): ExitCode {
  for (const p of bySeverity(problems)) printError(problemLine(p));
  return isFine(problems) ? 0 : 1;
}

/** Columns set flush, the first to the left, the others to the right. */
export function sayTable(table: readonly (readonly string[])[]): void {
  const rows = table.map((row) => row.map(visible));
  const widths = rows[0]?.map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0))) ?? [];
  for (const row of rows) {
    print(
      row
        .map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!)))
        .join('  ')
        .trimEnd(),
    );
  }
}

/** A line of progress, rewritten in place, on a terminal only. */
export function progress(what: string): (done: number, of: number) => void {
  if (!process.stderr.isTTY) return () => {};
  let shown = -1;
  return (done, of) => {
    const percent = Math.floor((100 * done) / of);
    if (percent === shown) return;
    shown = percent;
    process.stderr.write(`\r${what} ${percent} %${done >= of ? '\r\x1b[K' : ''}`);
  };
}

/**
 * Control characters (C0, DEL and C1 of ISO 6429), the line and paragraph separators, and the marks of Unicode's
 * bidirectional algorithm (UAX 9), which show a line in another order than it has.
 */
const OBEYED =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
  /[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;

const SHORT: Readonly<Record<string, string>> = { '\n': '\\n', '\r': '\\r', '\t': '\\t' };

/** One line of text in which every character that a terminal would obey is written out: a tab as \t, others as \u001b. */
const visible = (text: string): string =>
  text.replace(OBEYED, (character) => SHORT[character] ?? escaped(character));

const escaped = (character: string): string => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
