/** What a command is, and how its words are read. */
import { parseArgs } from 'node:util';

/** Exit codes: 0 fine, 1 problems in the data, 2 wrong use. */
export type ExitCode = 0 | 1 | 2;

interface Option {
  type: 'string' | 'boolean';
  /** What stands for the value in the help, e.g. `YEARS`. */
  value?: string;
  about: string;
}

export interface Command {
  name: string;
  summary: string;
  /** One line each, after the word `stillstand`. */
  usage: readonly string[];
  options: Readonly<Record<string, Option>>;
  /** Said below the options: units, columns, sources, cautions. */
  more: string;
  run(words: Words): Promise<ExitCode>;
}

export interface Words {
  positionals: string[];
  text(option: string): string | undefined;
  flag(option: string): boolean;
  /** A number of an option; wrong use where it is none or out of range. */
  number(option: string, range?: Range): number | undefined;
}

interface Range {
  min?: number;
  max?: number;
  /** The bound itself is not allowed. */
  above?: number;
  integer?: boolean;
}

/** Wrong use of the command line: said with the usage, exit code 2. */
export class WrongUse extends Error {}

/** The path of the one table that a command reads; `of`: what its rows are. */
export function oneTable({ positionals }: Words, of: string): string {
  const [path, ...others] = positionals;
  if (path === undefined || others.length > 0)
    throw new WrongUse(`Expected one table of ${of}; found ${positionals.join(' ') || 'none'}`);
  return path;
}

const COMMON_OPTIONS = {
  json: { type: 'boolean', about: 'print JSON, for other programs' },
  help: { type: 'boolean', about: 'say how the command is used' },
} as const satisfies Record<string, Option>;

export function readWords(command: Command, argv: readonly string[]): Words {
  const options = { ...command.options, ...COMMON_OPTIONS } as Record<string, Option>;
  let parsed: { values: Record<string, unknown>; positionals: string[] };
  try {
    parsed = parseArgs({
      args: withNegativeNumbers(argv, options),
      options: Object.fromEntries(
        Object.entries(options).map(([name, option]) => [name, { type: option.type }]),
      ),
      allowPositionals: true,
      strict: true,
    }) as typeof parsed;
  } catch (error) {
    throw new WrongUse(wordFault(error as Error & { code?: string }));
  }
  const text = (name: string): string | undefined => {
    const value = parsed.values[name];
    return typeof value === 'string' ? value : undefined;
  };
  return {
    positionals: parsed.positionals,
    text,
    flag: (name) => parsed.values[name] === true,
    number: (name, range = {}) => {
      const typed = text(name);
      if (typed === undefined) return undefined;
      const value = Number(typed);
      if (typed.trim() === '' || !Number.isFinite(value)) {
        throw new WrongUse(
          `--${name}: found “${typed}”, expected a number, with a decimal point and no thousands separators`,
        );
      }
      if (range.integer && !Number.isInteger(value)) {
        throw new WrongUse(`--${name}: found ${typed}, expected a whole number`);
      }
      const fits =
        value >= (range.min ?? -Infinity) &&
        value <= (range.max ?? Infinity) &&
        value > (range.above ?? -Infinity);
      if (!fits) throw new WrongUse(`--${name}: found ${typed}, expected ${rangeInWords(range)}`);
      return value;
    },
  };
}

export function helpOf(command: Command): string {
  const options = Object.entries({ ...command.options, ...COMMON_OPTIONS } as Record<string, Option>);
  const left = options.map(([name, option]) => `--${name}${option.value ? ` ${option.value}` : ''}`);
  const width = Math.max(...left.map((words) => words.length));
  return [
    command.summary,
    '',
    ...command.usage.map((line) => `  stillstand ${line}`),
    '',
    ...options.map(([, option], i) => `  ${left[i]!.padEnd(width)}  ${option.about}`),
    ...(command.more === '' ? [] : ['', command.more]),
  ].join('\n');
}

/** "1 to 32", "above 0", "at least 0". */
function rangeInWords({ min, max, above }: Range): string {
  const low = above === undefined ? `at least ${min}` : `above ${above}`;
  if (max === undefined) return low;
  return above === undefined
    ? `${min === undefined ? 'at most' : `${min} to`} ${max}`
    : `${low}, at most ${max}`;
}

/** What is wrong with the words, in ours. */
function wordFault({ code, message }: { code?: string; message: string }): string {
  const option = /'(--?[^'\s=<]*)/.exec(message)?.[1];
  if (option === undefined) return message;
  if (code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION') return `No option “${option}”; --help names them all`;
  return message.includes('does not take')
    ? `${option} takes no value`
    : `${option}: expected a value after it`;
}

/** `--offset -120` reads as a number, not as an unknown option. */
function withNegativeNumbers(argv: readonly string[], options: Record<string, Option>): string[] {
  const words: string[] = [];
  for (let i = 0; i < argv.length; i++) {
    const word = argv[i]!;
    const next = argv[i + 1];
    const takesValue = word.startsWith('--') && options[word.slice(2)]?.type === 'string';
    if (takesValue && next !== undefined && /^-[\d.]/.test(next)) {
      words.push(`${word}=${next}`);
      i += 1;
    } else words.push(word);
  }
  return words;
}
