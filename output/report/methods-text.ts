/** The methods text as plain text, and what it was computed with. Its words are those of the report. */
import { curveOf, type Results } from '@stillstand/campaign/results';
import { counted } from '@stillstand/output/words';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { Methods } from './sections/methods.tsx';

/** Signs in a line. */
const WIDTH = 100;

/** One file of text, UTF-8. `program` names what computed it, with its version. */
export function methodsText(results: Results, program: string): string {
  const title = `Methods: ${results.name === '' ? 'campaign without a name' : results.name}`;
  const markup = renderToStaticMarkup(createElement(Methods, { results }));
  const blocks = [...markup.matchAll(/<(h3|p|li)\b[^>]*>(.*?)<\/\1>/gs)].map(([, tag, inner]) => {
    const text = plain(inner!);
    return tag === 'h3' ? `\n${text}\n${'-'.repeat(text.length)}` : folded(text, tag === 'li' ? '- ' : '');
  });
  return [title, '='.repeat(title.length), ...blocks, '', ...counts(results, program)]
    .join('\n')
    .concat('\n');
}

function counts(results: Results, program: string): string[] {
  const { holes, samples, measurements, dates, points, settings } = results;
  const curve = curveOf(results);
  const used = points.filter(({ status }) => status === 'accepted').length;
  const chosen = settings.filter(({ assumed }) => !assumed);
  return [
    'Numbers and versions',
    '--------------------',
    [
      counted(holes.length, 'hole'),
      counted(samples.length, 'sample'),
      counted(measurements.length, 'laboratory value'),
      counted(dates.length, 'date'),
      `${counted(points.length, 'point')}, ${used} used`,
    ].join('; '),
    ...(curve === null ? [] : [`Curve: ${curve.diagnostics.converged ? 'converged' : 'NOT CONVERGED'}`]),
    `Computed by ${program}; version of the computation ${results.computation}, of the results file ${results.version}`,
    `Seed ${results.seed}; hash of everything the results depend on: ${results.inputs}`,
    `Datum: ${results.datum.label}${results.datum.epoch === null ? '' : `, ${results.datum.epoch}`}`,
    '',
    chosen.length === 0
      ? 'Every setting is a default.'
      : 'Settings that were chosen; all others are defaults:',
    ...chosen.map(({ name, value }) => `- ${name}: ${value}`),
  ];
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&amp;': '&',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#x27;': '’',
  '&nbsp;': ' ',
};

/** Text of our own markup; what was marked as a default says so in words. */
const plain = (markup: string): string =>
  markup
    .replace(/<svg.*?<\/svg>/gs, '')
    .replace(/<span class="assumed">(.*?)<\/span>/gs, '$1 (default)')
    .replace(/<[^>]+>/g, '')
    .replace(/&(?:amp|lt|gt|quot|#x27|nbsp);/g, (entity) => ENTITIES[entity]!)
    .replace(/\s+/g, ' ')
    .trim();

function folded(text: string, first: string): string {
  const lines: string[] = [];
  let line = first;
  for (const word of text.split(' ')) {
    const isFull = line.trim() !== '' && line !== first && line.length + 1 + word.length > WIDTH;
    if (isFull) lines.push(line);
    line = isFull ? `${' '.repeat(first.length)}${word}` : line === first ? first + word : `${line} ${word}`;
  }
  return [...lines, line].join('\n');
}
