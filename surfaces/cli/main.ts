/** `stillstand`: thin doors onto one core. */
import { type Command, type ExitCode, helpOf, readWords, WrongUse } from './command.ts';
import { codeOf, DiskFault } from './disk/fault.ts';
import { NoTarget } from './disk/write.ts';
import { print, printError } from './say.ts';

const COMMANDS: Record<string, () => Promise<Command>> = {
  new: async () => (await import('./commands/new.ts')).newCampaign,
  import: async () => (await import('./commands/import.ts')).importTable,
  check: async () => (await import('./commands/check.ts')).check,
  history: async () => (await import('./commands/history.ts')).history,
  compute: async () => (await import('./commands/compute.ts')).compute,
  compare: async () => (await import('./commands/compare.ts')).compare,
  merge: async () => (await import('./commands/merge.ts')).merge,
  calibrate: async () => (await import('./commands/calibrate.ts')).calibrateDates,
  reservoir: async () => (await import('./commands/reservoir.ts')).reservoir,
  sequence: async () => (await import('./commands/sequence.ts')).sequence,
  dose: async () => (await import('./commands/dose.ts')).dose,
  uranium: async () => (await import('./commands/uranium.ts')).uranium,
  grains: async () => (await import('./commands/grains.ts')).grains,
  lead: async () => (await import('./commands/lead.ts')).lead,
  correlate: async () => (await import('./commands/correlate.ts')).correlate,
  section: async () => (await import('./commands/section.ts')).section,
  ages: async () => (await import('./commands/ages.ts')).ages,
  environments: async () => (await import('./commands/environments.ts')).environments,
  points: async () => (await import('./commands/points.ts')).points,
  curve: async () => (await import('./commands/curve.ts')).curve,
  trace: async () => (await import('./commands/trace.ts')).trace,
  cable: async () => (await import('./commands/cable.ts')).cable,
  water: async () => (await import('./commands/water.ts')).water,
  pull: async () => (await import('./commands/pull.ts')).pull,
  pipe: async () => (await import('./commands/pipe.ts')).pipe,
  day: async () => (await import('./commands/day.ts')).day,
  risks: async () => (await import('./commands/risks.ts')).risks,
  labels: async () => (await import('./commands/labels.ts')).labels,
  submission: async () => (await import('./commands/submission.ts')).submission,
  archive: async () => (await import('./commands/archive.ts')).archive,
  replay: async () => (await import('./commands/replay.ts')).replay,
};

export async function main(argv: readonly string[]): Promise<ExitCode> {
  const [name, ...rest] = argv;
  if (name === undefined || name === '--help' || name === 'help') {
    print(...(await overview()));
    return name === undefined ? 2 : 0;
  }
  const load = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (load === undefined) {
    printError(
      `No command “${name}”. There are: ${Object.keys(COMMANDS).join(', ')}. What each does: npx stillstand help`,
    );
    return 2;
  }
  const command = await load();
  if (rest.includes('--help')) {
    print(...helpOf(command).split('\n'));
    return 0;
  }
  return await endedInWords(async () => await command.run(readWords(command, rest)), command.usage);
}

/** Wrong use and what the disk refuses are said in a sentence, and end with 2; anything else is a fault of ours. */
export async function endedInWords(
  work: () => Promise<ExitCode>,
  usage: readonly string[],
): Promise<ExitCode> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof WrongUse)
      printError(error.message, '', ...usage.map((line) => `  stillstand ${line}`));
    else if (error instanceof NoTarget || error instanceof DiskFault) printError(`error: ${error.message}`);
    else if (codeOf(error) !== null) printError(`error: ${unnamedFault(error).message}`);
    else throw error;
    return 2;
  }
}

/** Of a file of our own, such as a typeface: its path is in the error, if anywhere. */
function unnamedFault(error: unknown): DiskFault {
  const { path } = error as NodeJS.ErrnoException;
  return new DiskFault(path ?? 'The disk', 'read', error);
}

async function overview(): Promise<string[]> {
  const commands = await Promise.all(Object.values(COMMANDS).map((load) => load()));
  const width = Math.max(...commands.map((command) => command.name.length));
  return [
    'Stillstand: from the first reading on the rig to the sea-level curve and its rate.',
    '',
    ...commands.map((command) => `  stillstand ${command.name.padEnd(width)}  ${command.summary}`),
    '',
    'Each says more with --help. Exit codes: 0 fine, 1 problems in the data, 2 wrong use, or a disk that refuses.',
  ];
}
