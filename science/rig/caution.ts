/**
 * What must be read beside a number that could hurt someone. Each result that carries such a number carries its
 * caution too, so that no table, screen or file can show the one without the other.
 */

const LOCAL = 'Local codes, the permit and the makers’ manuals come before this number.';

export const CAUTIONS = {
  line_pull: `Estimate only: friction on a driven string is known within a factor of several. Do not exceed any load rating marked on the gear; a competent person checks rope, shackles, sheaves, winch and derrick against it. Stand clear of the load, of the bight of a line and of the path of a tight line. ${LOCAL}`,
  water: `Keep the string full: sand that boils in at the shoe buries the sampler and ruins the hole. The factor of safety holds for even sediment and still water; a tide, a burrow or a lens of sand lowers it. ${LOCAL}`,
  suction: `An estimate from first principles for a plugged sampler moving evenly in the middle of clean pipe. Breaking the sampler free takes far more suction, and a jerk more still: lift by hand until it is free, then slowly. ${LOCAL}`,
  cable: `Check the tape at the collar before each run (tip level with the collar, mark at the collar) and after any slip, new joint or new clamp. A sampler below the shoe sticks, and is freed only by pulling the whole string. Keep hands off a running cable. ${LOCAL}`,
  overhead: `Least distances of 29 CFR 1926.1408 Table A for equipment near live lines, United States. The law and the owner of the line where you are come first and may ask for more; if the voltage is not known, stay away until the owner states it. Locate buried services before anything is driven. ${LOCAL}`,
} as const;
