// Every relative link in the Markdown pages leads to a file, and every anchor to a heading.
import { existsSync, globSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

const root = join(import.meta.dirname, '..');
const complaints = [];
const pages = globSync('**/*.md', { cwd: root, exclude: (path) => /node_modules|^out/.test(path) });

for (const page of pages) {
  const text = readFileSync(join(root, page), 'utf8').replace(/```[\s\S]*?```/g, '');
  for (const [, target] of text.matchAll(/\]\(([^)\s]+)\)/g)) {
    if (/^[a-z]+:/.test(target)) continue;
    const [path, anchor] = target.split('#');
    const file = path === '' ? join(root, page) : join(root, dirname(page), path);
    if (!existsSync(file)) complaints.push(`${page}: ${target} leads nowhere`);
    else if (anchor && file.endsWith('.md') && !anchorsOf(file).has(anchor)) {
      complaints.push(`${page}: ${target} names no heading of its page`);
    }
  }
}

if (complaints.length > 0) {
  console.error(complaints.join('\n'));
  process.exit(1);
}

function anchorsOf(file) {
  const headings = readFileSync(file, 'utf8').matchAll(/^#+\s+(.*)$/gm);
  return new Set([...headings].map(([, words]) => slug(words)));
}

function slug(words) {
  return words
    .trim()
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s_-]/gu, '')
    .replace(/\s+/g, '-');
}
