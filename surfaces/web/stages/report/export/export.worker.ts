/** Draws figures as they are chosen, and makes their files; loaded when the panel is opened. */
import type { Results } from '@stillstand/campaign/results';
import { captionsText, type Figure, type FigureOptions, figuresOf } from '@stillstand/output/figures';
import { NO_SHAPES } from '@stillstand/output/shapes';
import { figureToPdf, outlinedSvg } from '@stillstand/output/typeset';
import type { PackedFile } from '../protocol.ts';
import { stripInGreys, stripsOf } from '../strips.ts';
import { withTypefaces } from '../typefaces.ts';
import { zipped } from '../zipped.ts';
import { plainZeroRules, readLetters } from './letters.ts';
import type { Answered, Asked, Picture } from './protocol.ts';

const answer = (message: Answered): void => self.postMessage(message);

let results: Results | null = null;
let photos: ReadonlyMap<string, Blob> = new Map();
let shapes = NO_SHAPES;
let newest = 0;
let work: Promise<void> = Promise.resolve();

self.onmessage = ({ data: asked }: MessageEvent<Asked>): void => {
  if (asked.kind === 'show') newest = asked.turn;
  work = work
    .then(() => answerTo(asked))
    .catch((error: unknown) => {
      answer({ kind: 'failed', words: error instanceof Error ? error.message : String(error) });
    });
};

async function answerTo(asked: Asked): Promise<void> {
  if (asked.kind === 'results') {
    results = asked.results;
    photos = new Map(asked.photos);
    shapes = asked.shapes;
  } else if (asked.kind === 'pack') answer({ kind: 'packed', zip: await zipped(asked.files) });
  else if (results === null) throw new Error('figures: expected results before they are drawn');
  else if (asked.kind === 'make') await make(asked, results);
  // Only the newest look is worth drawing.
  else if (asked.turn === newest) await show(asked, results);
}

async function show({ turn, options, name }: Asked & { kind: 'show' }, from: Results): Promise<void> {
  await readLetters();
  const figures = await figuresWithPhotos(from, options);
  const shown = figures.find((figure) => figure.name === name) ?? figures[0] ?? null;
  answer({
    kind: 'shown',
    turn,
    figures: figures.map((figure) => ({ name: figure.name, words: figure.title })),
    shown:
      shown === null
        ? null
        : {
            name: shown.name,
            svg: svgFile(await withLetters(shown)),
            width_mm: shown.width_mm,
            height_mm: shown.height_mm,
            caption: shown.caption,
            warnings: shown.warnings,
          },
  });
}

async function make(
  { options, names, svg, pdf, png }: Asked & { kind: 'make' },
  from: Results,
): Promise<void> {
  await readLetters();
  const figures = (await figuresWithPhotos(from, options)).filter(({ name }) => names.includes(name));
  const files: PackedFile[] = [
    ['captions.txt', new Blob([captionsText(figures)], { type: 'text/plain;charset=utf-8' })],
  ];
  const pictures: Picture[] = [];
  for (const [i, figure] of figures.entries()) {
    const { name, width_mm, height_mm } = figure;
    if (svg) files.push([`${name}.svg`, svgFile(await withLetters(figure))]);
    if (pdf)
      files.push([`${name}.pdf`, new Blob([await figureToPdf(figure.svg)], { type: 'application/pdf' })]);
    if (png) pictures.push({ name, svg: svgFile(outlinedSvg(figure.svg)), width_mm, height_mm });
    answer({ kind: 'progress', done: i + 1, of: figures.length });
  }
  answer({ kind: 'made', files, pictures });
}

async function figuresWithPhotos(from: Results, options: FigureOptions): Promise<Figure[]> {
  const strips = await stripsOf(from, photos);
  if (options.grey === true) for (const [row, strip] of strips) strips.set(row, await stripInGreys(strip));
  return figuresOf(from, { ...options, pictures: strips, shapes });
}

/** The SVG with the faces it asks for. */
async function withLetters({ svg }: Figure): Promise<string> {
  const whole = await withTypefaces(svg);
  if (!svg.includes('Plain Zero')) return whole;
  return whole.replace('<desc>', () => `<style>${plainZeroRules(svg)}</style><desc>`);
}

const svgFile = (svg: string): Blob => new Blob([svg], { type: 'image/svg+xml;charset=utf-8' });
