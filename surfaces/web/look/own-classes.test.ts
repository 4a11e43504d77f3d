/**
 * Stages keep their style once it is loaded, so what one stage says of a class holds on every stage opened after it. A
 * class that a stage's style begins with belongs to that stage alone; words for all stand in `look` and `parts`.
 * (2026-11-25: Describe's `.picture` cut the curve short for whoever came from there.)
 */
import assert from 'node:assert/strict';
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';

const WEB = join(import.meta.dirname, '..');
const read = (path: string): string => readFileSync(join(WEB, path), 'utf8');
const stageOf = (path: string): string | null => /^stages\/([^/]+)\//.exec(path)?.[1] ?? null;

/** First classes of the rules that stand within no other. */
function firstClasses(css: string): string[] {
  const within: string[] = [];
  const found: string[] = [];
  for (const [, words = '', mark] of css.replaceAll(/\/\*[\s\S]*?\*\//g, '').matchAll(/([^{};]*)([{};])/g)) {
    if (mark === '}') within.pop();
    if (mark !== '{') continue;
    const rule = words.trim();
    const isFirst = within.every((around) => around.startsWith('@')) && !rule.startsWith('@');
    if (isFirst) {
      // `.page:has(.drill)` speaks of its own stage only.
      for (const selector of rule.split(',')) {
        if (!selector.includes(':has(')) found.push(/^\s*\.([\w-]+)/.exec(selector)?.[1] ?? '');
      }
    }
    within.push(rule);
  }
  return found.filter((name) => name !== '');
}

const used = (tsx: string): string[] =>
  [...tsx.matchAll(/className=(?:"([^"]*)"|\{([^}]*)\})/g)].flatMap(([, plain, code = '']) => {
    const words = plain ?? [...code.matchAll(/['`]([^'`]*)['`]/g)].map(([, text]) => text).join(' ');
    return words.match(/[a-z][\w-]*/gi) ?? [];
  });

test('no stage’s style reaches into another stage', () => {
  const uses = new Map(globSync('**/*.tsx', { cwd: WEB }).map((path) => [path, used(read(path))]));
  const strays = globSync('stages/*/**/*.css', { cwd: WEB }).flatMap((css) =>
    firstClasses(read(css)).flatMap((name) =>
      [...uses]
        .filter(([path, names]) => stageOf(path) !== stageOf(css) && names.includes(name))
        .map(([path]) => `.${name} of ${css} is used in ${path}`),
    ),
  );
  assert.deepEqual(strays, []);
});

test('a rule is found where it begins (of rules within rules only the outer)', () => {
  assert.deepEqual(firstClasses('.a, b.c { & .d { x: y } } @media (x) { .e:hover .f { x: y } }'), ['a', 'e']);
});
