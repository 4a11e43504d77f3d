/** What the commands print. */
import { bySeverity, isFine, type Problem, problemLine } from '@stillstand/campaign/problems';
import type { ExitCode } from './command.ts';

export function sayJson(value: unknown): void {
  console.log(JSON.stringify(value, null, 1));
}

/** Problems to standard error, the gravest first, and the exit code they call for. */
export function sayProblems(problems: readonly Problem[]): ExitCode {
  for (const p of bySeverity(problems)) console.error(problemLine(p));
  return isFine(problems) ? 0 : 1;
}

/** Columns set flush, the first to the left, the others to the right. */
export function sayTable(rows: readonly (readonly string[])[]): void {
  const widths = rows[0]?.map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0))) ?? [];
  for (const row of rows) {
    console.log(
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
