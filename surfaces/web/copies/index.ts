/** A copy of the campaign each day, in a folder that the person chose. */
export { hasFolders, pickFolder } from './folder.ts';
export { DailyContext, dailyCopiesOf, useDaily } from './use-daily.ts';
