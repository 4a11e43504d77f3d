/** Tide words: a tide level with an offset, "MHW", "MHW+0.1", "MTL − 0.25 m", "HAT+1 ft". */
import { TIDE_LEVELS, type TideLevelName, type TideWord } from './column.ts';
import type { Fault } from './fault.ts';
import { type LengthOptions, parseLength } from './length.ts';
import { nearest } from './near.ts';

export type ParsedTideWord = ({ ok: true } & TideWord) | ({ ok: false } & Fault);

const LEVELS: ReadonlySet<string> = new Set(TIDE_LEVELS);
const FORM = /^([a-z]+)(?:\s*([-+−–])\s*(.+))?$/iu;

/** Reads one tide word; an offset without a unit is in metres, up positive. Never throws. */
export function parseTideWord(
  text: string,
  options: Pick<LengthOptions, 'decimal_comma'> = {},
): ParsedTideWord {
  const form = FORM.exec(text.trim());
  const level = form?.[1]?.toUpperCase() ?? '';
  if (!form || !LEVELS.has(level)) {
    const near = form ? nearest(level, TIDE_LEVELS) : null;
    return {
      ok: false,
      code: 'unknown-tide-level',
      found: text,
      expected: `a tide level with an offset, such as MHW+0.1, of ${TIDE_LEVELS.join(', ')}`,
      fix: near === null ? 'Correct it.' : `Perhaps ${near} is meant.`,
    };
  }
  if (form[3] === undefined) return { ok: true, level: level as TideLevelName, offset_m: 0 };
  const offset = parseLength(form[3], { ...options, unit: 'm' });
  if (!offset.ok || /^[-+−–]/u.test(form[3])) {
    return {
      ok: false,
      code: 'unknown-tide-level',
      found: text,
      expected: 'a tide level with an offset in metres, such as MHW+0.1',
      fix: 'Correct the offset.',
    };
  }
  const offset_m = form[2] === '+' || offset.metres === 0 ? offset.metres : -offset.metres;
  return { ok: true, level: level as TideLevelName, offset_m };
}
