/** Numbers in problems and in the trace, with a true minus. */

/** "+1.20", "−0.35": an elevation, or what is added to one, m. */
export const inMetres = (m: number): string => `${m < 0 ? '−' : '+'}${Math.abs(m).toFixed(2)}`;

/** "1.20", "−0.35": a distance or a difference, m. */
export const unsignedMetres = (m: number): string => m.toFixed(2).replace('-', '−');
