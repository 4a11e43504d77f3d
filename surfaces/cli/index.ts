/** The command line, and what others of the house write folders with. */
export { computeFiles } from './commands/compute.ts';
export { target, writeWhole } from './disk/write.ts';
export { endedInWords, main } from './main.ts';
