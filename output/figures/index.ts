/** Figures of results: each a component drawn to static SVG in points, two typefaces, one set of inks. */
export { ageDepthFigure } from './age-depth-figure.tsx';
export { graphicLog } from './column-figure.tsx';
export {
  CurveDrawing,
  type CurveLayout,
  curveFigure,
  curveLayout,
  type RateBar,
} from './curve-figure.tsx';
export { datesFigure } from './dates-figure.tsx';
export { errorBudgetFigure } from './error-budget-figure.tsx';
export type { Figure, FigureOptions } from './figure.tsx';
export { figuresOf } from './figures-of.ts';
export {
  HOLE_DRAWING,
  HoleDrawing,
  type HoleView,
  type HoleViewUnit,
  holeFigure,
  holeView,
  holeWords,
} from './hole-figure.tsx';
export { penetrationFigure } from './penetration-figure.tsx';
export { recoveryFigure } from './recovery-figure.tsx';
export { type RegistrationOptions, registrationFigure } from './registration-figure.tsx';
export { HoleHead, SectionLog, unitWidth } from './section/hung-column.tsx';
export { type Stand, sectionLayout } from './section/layout.ts';
export { type SectionOptions, type SectionTie, sectionFigure } from './section-figure.tsx';
