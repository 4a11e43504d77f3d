/** Figures of results: each a component drawn to static SVG in points, two typefaces, one set of inks. */
export { ageDepthFigure } from './age-depth-figure.tsx';
export { curveCalled } from './chronology.ts';
export { graphicLog } from './column-figure.tsx';
export {
  curveDoubts,
  disagreementRule,
  levelOnOnePoint,
  pointsThatDisagree,
  probability,
} from './curve/doubts.ts';
export { BEYOND, isBeyond, isReached, UNREACHED } from './curve/reach.ts';
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
export { Contact } from './parts/contact.tsx';
export { partName, sharedThrough } from './parts/error-words.ts';
export { INKS, InkContext, type Inks, LINE, type Theme, useInk } from './parts/ink.ts';
export { Lozenge, PointMark } from './parts/marks.tsx';
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
export { Pattern } from './parts/pattern.tsx';
export { placeAlong } from './parts/place.ts';
export { recoveredBar } from './parts/recovered.ts';
export { type Scale, scale } from './parts/scale.ts';
export { type Sediment, sedimentOf, sedimentOfUnit } from './parts/sediment.ts';
export { Seen, seenNames } from './parts/seen.tsx';
export { isMarine, outline, Sets, Silhouette } from './parts/silhouette.tsx';
export { LyingStaff, staffStep, UprightStaff } from './parts/staff.tsx';
export { firstLines, SIZE, shortened, TEXT_FAMILY, Text, textWidth, wrapped } from './parts/text.tsx';
export { penetrationFigure } from './penetration-figure.tsx';
export { recoveryFigure } from './recovery-figure.tsx';
export { type RegistrationOptions, registrationFigure } from './registration-figure.tsx';
export { HoleHead, SectionLog, unitWidth } from './section/hung-column.tsx';
export { type Stand, sectionLayout } from './section/layout.ts';
export { type SectionOptions, type SectionTie, sectionFigure } from './section-figure.tsx';
