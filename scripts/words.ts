/**
 * Words that the house style leaves out (CONTRIBUTING.md, Wording), looked for in what people read: the prose of the
 * Markdown pages, and in the sources JSX text, labels and messages. Names, comments and code in backticks are not read.
 *   node scripts/words.ts
 */
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseSync, Visitor } from 'oxc-parser';
import { nameVisitors } from './names-in-source.ts';

interface Rule {
  /** Matches the word and, where it is a fault in some uses only, what makes it one. */
  finds: RegExp;
  instead: string;
}

const THINGS = '(?:(?:it|them|this|these|those|that|one|the \\w+|a \\w+) )?';

const RULES: readonly Rule[] = [
  { finds: /\bmend(?:s|ed|ing)?\b/i, instead: 'fix, or in prose correct' },
  { finds: /\breckon(?:s|ed|ing)?\b/i, instead: 'compute, work out' },
  // “Stand clear” and “do not stand in the bight” are orders to people; “a stand of trees” is botany.
  {
    finds: /\b(?:stands|stood|standing) (?:in|there|at line)\b|\bstands? for\b/i,
    instead: 'is, is listed, is at, means',
  },
  // A block may hang on a hook.
  { finds: /\bh(?:ang|angs|anging|ung) on\b(?! the hook)/i, instead: 'depends on' },
  // People may be asked to tell people; data tell nothing.
  { finds: /\btold\b|\btells\b|\btelling\b|\btell apart\b/i, instead: 'shown, reported, distinguished' },
  { finds: /\bof which\b/i, instead: 'two sentences, or whose' },
  { finds: /\blook(?:s|ed|ing)? whether\b/i, instead: 'check whether' },
  {
    finds: new RegExp(
      `\\bt(?:ake|akes|aken|aking|ook) ${THINGS}(?:out|away)\\b|\\btake (?:it|them|this) so\\b`,
      'i',
    ),
    instead: 'delete (data), remove (from a list), pull (pipe)',
  },
  { finds: /\bbrings?\b|\bbrought\b|\bbringing\b/i, instead: 'import, add, carry' },
  { finds: /\bgone on\b/i, instead: 'continued' },
  { finds: /\bwhole way\b/i, instead: 'from end to end, throughout' },
  { finds: /\bin sight\b/i, instead: 'visible, shown' },
  // Of what is not measured. Safety lines speak of people: “Nobody under the load”, “Nobody works alone”.
  {
    finds: /\bnobody\b(?! (?:under the load|works alone|ashore expects))/i,
    instead: 'not measured, unassigned, no one',
  },
  { finds: /\banew\b/i, instead: 'again' },
  { finds: /\bbeside\b/i, instead: 'with, next to' },
  { finds: /\bmeanwhile\b/i, instead: 'until then, at the same time' },
];

export interface Finding {
  file: string;
  line: number;
  word: string;
  instead: string;
}

/** What the rules find in one stretch of prose that begins at `line`. */
function inProse(file: string, line: number, prose: string): Finding[] {
  return RULES.flatMap(({ finds, instead }) =>
    // A phrase may be broken at the end of a line.
    // Joined to a dot or a hyphen it is part of a name.
    [...prose.matchAll(new RegExp(`(?<![.-])(?:${finds.source.replaceAll(' ', '\\s+')})(?!-)`, 'gi'))].map(
      (match) => ({
        file,
        line: line + prose.slice(0, match.index).split('\n').length - 1,
        word: match[0].replace(/\s+/g, ' '),
        instead,
      }),
    ),
  );
}

/** Findings in a Markdown page; code and the targets of links are not read. */
export function inMarkdown(file: string, text: string): Finding[] {
  const blank = (code: string): string => code.replace(/[^\n]/g, ' ');
  const prose = text
    .replace(/^(`{3,})[\s\S]*?^\1/gm, blank)
    .replace(/`[^`]*`/g, blank)
    .replace(/\]\([^)]*\)/g, blank);
  return inProse(file, 1, prose).sort((a, b) => a.line - b.line);
}

/** Attributes of JSX that hold names, never words. */
const NAMES =
  /^(?:className|class|id|key|href|d|type|name|role|htmlFor|data-.*|for|rel|target|fill|stroke.*)$/;

/** Findings in a TypeScript source: JSX text, and the strings in it that are words rather than names. */
export function inSource(file: string, text: string): Finding[] {
  const { program, errors } = parseSync(file, text);
  if (errors.length > 0) throw new SyntaxError(`${file}: ${errors[0]!.message}`);
  const found: Finding[] = [];
  const names = new Set<number>();
  const isName = (node: { start: number } | null | undefined): void => {
    if (node) names.add(node.start);
  };
  const read = (start: number, words: string): void => {
    // One word in small letters is a value or a name; people are shown words with a capital, or several.
    if (names.has(start) || !/\s|^[A-Z]/.test(words.trim())) return;
    found.push(...inProse(file, text.slice(0, start).split('\n').length, words));
  };
  new Visitor({
    ...nameVisitors(isName),
    JSXAttribute: ({ name, value }) => {
      if (name.type === 'JSXIdentifier' && NAMES.test(name.name)) isName(value);
    },
    JSXText: ({ start, value }) => read(start, ` ${value}`),
    Literal: ({ start, value }) => {
      if (typeof value === 'string') read(start, value);
    },
    TemplateLiteral: ({ start, quasis }) =>
      read(start, quasis.map(({ value }) => value.cooked ?? '').join('…')),
  }).visit(program);
  return found;
}

const ROOT = join(import.meta.dirname, '..');

function read(pattern: string, find: typeof inSource, leaveOut: RegExp): Finding[] {
  return globSync(pattern, { cwd: ROOT, exclude: (path) => /(^|\/)(node_modules|out|fixtures)$/.test(path) })
    .filter((file) => !leaveOut.test(file))
    .sort()
    .flatMap((file) => find(file, readFileSync(join(ROOT, file), 'utf8')));
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const findings = [
    ...read('**/*.md', inMarkdown, /^(?:node_modules|out)\//),
    ...read(
      '{science,campaign,output,published,surfaces}/**/*.{ts,tsx}',
      inSource,
      /\.test\.tsx?$|\/browser\/|\.d\.ts$/,
    ),
  ];
  for (const { file, line, word, instead } of findings)
    console.error(`${file}:${line}: “${word}” is not a word of this house; say instead: ${instead}`);
  if (findings.length > 0) {
    console.error(`${findings.length} to reword (CONTRIBUTING.md, Wording).`);
    process.exitCode = 1;
  }
}
