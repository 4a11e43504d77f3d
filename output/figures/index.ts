/** Figures of results: each a component drawn to static SVG in points, two typefaces, one set of inks. */
export { columnFigure } from './column-figure.tsx';
export type { Figure, FigureOptions } from './figure.tsx';
