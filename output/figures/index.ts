/** Figures of results: each a component drawn to static SVG in points, two typefaces, one set of inks. */
export { columnFigure } from './column-figure.tsx';
export { curveFigure } from './curve-figure.tsx';
export { datesFigure } from './dates-figure.tsx';
export { errorBudgetFigure } from './error-budget-figure.tsx';
export type { Figure, FigureOptions } from './figure.tsx';
export {
  HOLE_DRAWING,
  HoleDrawing,
  type HoleView,
  type HoleViewUnit,
  holeFigure,
  holeView,
  holeWords,
  runInHand,
  waterLevels,
} from './hole-figure.tsx';
export {
  columnDecimals,
  counted,
  decimalsFor,
  printed,
  range,
  signed,
  written,
  years,
} from './parts/number.ts';
export { sedimentOf } from './parts/sediment.ts';
export { type SectionOptions, type SectionTie, sectionFigure } from './section-figure.tsx';
