/** `stillstand`: thin doors onto one core. */
import { type Command, type ExitCode, helpOf, readWords, WrongUse } from './command.ts';

const COMMANDS: Record<string, () => Promise<Command>> = {
  new: async () => (await import('./commands/new.ts')).newCampaign,
  check: async () => (await import('./commands/check.ts')).check,
  compute: async () => (await import('./commands/compute.ts')).compute,
  calibrate: async () => (await import('./commands/calibrate.ts')).calibrateDates,
  points: async () => (await import('./commands/points.ts')).points,
  curve: async () => (await import('./commands/curve.ts')).curve,
  trace: async () => (await import('./commands/trace.ts')).trace,
  cable: async () => (await import('./commands/cable.ts')).cable,
  water: async () => (await import('./commands/water.ts')).water,
  pull: async () => (await import('./commands/pull.ts')).pull,
  replay: async () => (await import('./commands/replay.ts')).replay,
};

export async function main(argv: readonly string[]): Promise<ExitCode> {
  const [name, ...rest] = argv;
  if (name === undefined || name === '--help' || name === 'help') {
    console.log(await overview());
    return name === undefined ? 2 : 0;
  }
  const load = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (load === undefined) {
    console.error(
      `No command “${name}”. There are: ${Object.keys(COMMANDS).join(', ')}. What each does: npx stillstand help`,
    );
    return 2;
  }
  const command = await load();
  try {
    if (rest.includes('--help')) {
      console.log(helpOf(command));
      return 0;
    }
    return await command.run(readWords(command, rest));
  } catch (error) {
    if (!(error instanceof WrongUse)) throw error;
    console.error(`${error.message}\n\n${command.usage.map((line) => `  stillstand ${line}`).join('\n')}`);
    return 2;
  }
}

async function overview(): Promise<string> {
  const commands = await Promise.all(Object.values(COMMANDS).map((load) => load()));
  const width = Math.max(...commands.map((command) => command.name.length));
  return [
    'Stillstand: from the first reading on the rig to the sea-level curve and its rate.',
    '',
    ...commands.map((command) => `  stillstand ${command.name.padEnd(width)}  ${command.summary}`),
    '',
    'Each says more with --help. Exit codes: 0 fine, 1 problems in the data, 2 wrong use.',
  ].join('\n');
}
