/**
 * How much of a long check is computed. The gate takes a part, so that it ends within 25 minutes on two cores; `npm run
 * test:whole` takes all of it, before a release and after a change of what it checks. Bounds and seeds are the same.
 */
export const isWhole = process.env['STILLSTAND_WHOLE'] === '1';
export const partOrWhole = <T>(part: T, whole: T): T => (isWhole ? whole : part);
