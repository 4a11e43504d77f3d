/** International foot and inch in metres, exact by definition (international yard and pound agreement, 1959). */
export const FOOT_M = 0.3048;
export const INCH_M = 0.0254;
