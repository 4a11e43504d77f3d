/** Captions apart from their figures, as a journal asks for them. */
import type { Figure } from './figure.tsx';

/** One paragraph a figure, numbered as listed, with the name of its file above it. */
export const captionsText = (figures: readonly Pick<Figure, 'name' | 'caption'>[]): string =>
  figures.map(({ name, caption }, i) => `${name}\nFigure ${i + 1}. ${caption}\n`).join('\n');
