/**
 * The messages of the rig and their catalogues: every word a person reads in the rooms that are spoken in the crew's own
 * language goes through t`…` or translated(…), and each catalogue has each message once, with its places.
 *   node scripts/messages.ts             what is wrong, if anything
 *   node scripts/messages.ts --list      every message, as an empty catalogue
 */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseSync, Visitor } from 'oxc-parser';
import { nameVisitors } from './names-in-source.ts';

const ROOT = join(import.meta.dirname, '..');

/** What is read on the rig. The other stages are read at a desk, in English. */
const SPOKEN = [
  'surfaces/web/stages/drill/**/*.{ts,tsx}',
  'surfaces/web/holes/*.{ts,tsx}',
  'surfaces/web/days/*.{ts,tsx}',
  'surfaces/web/parts/entry/*.{ts,tsx}',
  'surfaces/web/parts/dialog.tsx',
  'surfaces/web/parts/number/traced.tsx',
  'surfaces/web/parts/fields/amendment-choice.tsx',
  'surfaces/web/shell/frame/{frame,tools,daily-words}.tsx',
];

/** As the files of `surfaces/web/language` have it. */
export interface Catalogue {
  app: Record<string, string>;
  rooms: Record<string, string>;
}

export interface Words {
  file: string;
  line: number;
  words: string;
}

interface Found extends Words {
  start: number;
}

/** Strings that look like words and are values: of the record, of a side of rounding, keys of what is open. */
const VALUES: ReadonlySet<string> = new Set([
  'Stillstand',
  'last call',
  'paper sheet',
  'in one piece',
  'piece by piece',
  'at least',
  'at most',
  'lay next',
  'line …',
  'day …',
  'amend …',
  'form … …',
]);
/** Attributes that are read out or shown, of one word too. */
const SPOKEN_ATTRIBUTES = /^(?:aria-label|title|placeholder|label|alt)$/;

const SELECTOR = /^(?:[.:[]|tbody input$|input, textarea, select$)/;

/** Attributes of JSX that hold names, never words. */
const NAMES =
  /^(?:className|class|id|key|href|d|type|name|role|htmlFor|data-.*|aria-(?:live|haspopup|current|expanded|pressed|describedby|hidden|invalid)|for|rel|target|fill|stroke.*|viewBox|transform|accept|kind|mark|capture|autoComplete|inputMode|form|scope|xmlns|textAnchor|dominantBaseline|preserveAspectRatio|children|ref|style|of|is|as|table|column|size|does)$/;

/** Messages of a source, and the words in it that are none. */
export function messagesIn(file: string, text: string): { messages: Words[]; bare: Words[] } {
  const { program, errors } = parseSync(file, text);
  if (errors.length > 0) throw new SyntaxError(`${file}: ${errors[0]!.message}`);
  const messages: Words[] = [];
  const bare: Found[] = [];
  const isTagged = new Set<number>();
  const unread: [from: number, to: number][] = [];
  const isName = new Set<number>();
  const name = (node: { start: number } | null | undefined): void => {
    if (node) isName.add(node.start);
  };
  const at = (start: number, words: string): Found => ({
    start,
    file,
    line: text.slice(0, start).split('\n').length,
    words,
  });
  const words = (start: number, said: string): void => {
    // A word in small letters is a value or a name: the pictures of the app are looked through for those.
    const isWords =
      /[A-Za-z]{2}/.test(said) && (/\S\s+\S/.test(said.trim()) || /^[A-Z][a-z]/.test(said.trim()));
    if (isWords && !isName.has(start)) bare.push(at(start, said.trim()));
  };
  new Visitor({
    ...nameVisitors(name),
    JSXAttribute: ({ name: attribute, value }) => {
      if (SPOKEN_ATTRIBUTES.test(String(attribute.name)) && value?.type === 'Literal') {
        name(value);
        if (/[a-z]/i.test(String(value.value))) bare.push(at(value.start, String(value.value)));
        return;
      }
      if (attribute.type === 'JSXIdentifier' && NAMES.test(attribute.name)) {
        if (value !== null) unread.push([value.start, value.end]);
      }
    },
    TaggedTemplateExpression: ({ tag, quasi }) => {
      isTagged.add(quasi.start);
      if (tag.type !== 'Identifier' || tag.name !== 't') return;
      const key = quasi.quasis.map(({ value }, i) => (i === 0 ? '' : `{${i - 1}}`) + (value.cooked ?? ''));
      const { start: _, ...message } = at(quasi.start, key.join('').trim());
      messages.push(message);
    },
    JSXText: ({ start, value }) => {
      if (/[A-Za-z]{2}/.test(value)) bare.push(at(start, value.trim()));
    },
    Literal: ({ start, value }) => {
      if (typeof value === 'string') words(start, value);
    },
    TemplateLiteral: ({ start, quasis }) => {
      const said = quasis.map(({ value }) => value.cooked ?? '').join('…');
      if (!isTagged.has(start) && /[a-z]{3,}\s|\s[a-z]{3,}/.test(said)) words(start, said);
    },
  }).visit(program);
  const isRead = ({ start, words: said }: Found): boolean =>
    !VALUES.has(said) && !SELECTOR.test(said) && !unread.some(([from, to]) => start >= from && start < to);
  return { messages, bare: bare.filter(isRead).map(({ start: _, ...found }) => found) };
}

/** All of the sources that are read on the rig. */
export function messagesOfTheRig(): { messages: Words[]; bare: Words[] } {
  const files = SPOKEN.flatMap((pattern) => globSync(pattern, { cwd: ROOT }))
    .filter((file) => !/\.test\.tsx?$|\/(?:fixtures|browser)\//.test(file))
    .sort();
  const all = files.map((file) => messagesIn(file, readFileSync(join(ROOT, file), 'utf8')));
  return { messages: all.flatMap((a) => a.messages), bare: all.flatMap((a) => a.bare) };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const { messages, bare } = messagesOfTheRig();
  if (process.argv.includes('--list')) {
    const keys = [...new Set(messages.map((m) => m.words))];
    console.log(JSON.stringify(Object.fromEntries(keys.map((key) => [key, ''])), null, 2));
  } else {
    for (const { file, line, words } of bare) console.error(`${file}:${line}: “${words}” is in no catalogue`);
    if (bare.length > 0) process.exitCode = 1;
  }
}
