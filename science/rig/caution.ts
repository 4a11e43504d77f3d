/**
 * What must be read beside a number that could hurt someone. Each result that carries such a number carries its
 * caution too, so that no table, screen or file can show the one without the other.
 */

const LOCAL = 'Local codes, the permit and the makers’ manuals come before this number.';

export const CAUTIONS = {
  line_pull: `Estimate only: friction on a driven string is known within a factor of several. A competent person checks rope, shackles, sheaves, winch and derrick against the loads marked on them; none is passed, whatever the estimate. Nobody stands under a load, in the bight of a line or in line with a tight one. ${LOCAL}`,
  water: `Keep the string full: sand that boils in buries the sampler and undoes the hole. The factor of safety holds for even sediment and still water; a tide, a burrow or a lens of sand lowers it. ${LOCAL}`,
  suction: `An estimate from first principles for a plugged sampler moving evenly in the middle of clean pipe. Breaking it out of the sediment draws far harder, and a jerk harder still: lift by hand until it is free, then slowly. ${LOCAL}`,
  cable: `Check the tape at the collar before each run (tip level with the collar, mark at the collar) and after any slip, new joint or new clamp. A sampler below the shoe sticks, and is freed only by pulling the whole string. Hands off a running cable. ${LOCAL}`,
  overhead: `Least distances of 29 CFR 1926.1408 Table A for equipment near live lines, United States. The law and the owner of the line where you are come first and may ask for more; unknown voltage means: stay away until its owner has said it. Buried services are located before anything is driven. ${LOCAL}`,
} as const;
