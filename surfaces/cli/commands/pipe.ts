/** `stillstand pipe`: where each item of pipe, each sampler and the gear of a campaign is. */
import {
  type DayPipe,
  gearProblems,
  gearWords,
  itemsWords,
  pipeDays,
  pipeProblems,
  reconcileCampaign,
  reconcileDay,
  samplerWords,
  type TallyItem,
  whereWords,
} from '@stillstand/campaign/holes';
import { openCampaign } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { type CrewUnit, sayLength, unitWord } from '../crew-length.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';

export const pipe: Command = {
  name: 'pipe',
  summary: 'Say where each item of pipe, each sampler and the gear is, with the totals.',
  usage: ['pipe FOLDER [--unit m|ft] [--json]', 'pipe FOLDER --day 2024-03-05 [--json]'],
  options: {
    day: { type: 'string', value: 'DATE', about: 'what went in and came out on this day, ISO 8601' },
    unit: { type: 'string', value: 'm|ft', about: 'unit of the lengths; m if not given' },
  },
  more: [
    'From the tables pipe_stock, string_items, samplers, runs and gear. An item in a hole is where its readings say;',
    'of an item at hand the condition that was found last decides, and the worse where no clock shows which was last.',
    'Lengths are end to end; totals are of the items that were measured.',
  ].join('\n'),
  run,
};

const TABLES: readonly string[] = ['pipe_stock', 'string_items', 'samplers', 'gear'];

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected one campaign folder or zip');
  const date = words.text('day');
  if (date !== undefined && !/^\d{4}-\d{2}-\d{2}$/.test(date))
    throw new WrongUse(`--day: found “${date}”, expected a date such as 2024-03-05`);
  const unit = unitWord(words) ?? 'm';
  const { campaign, problems } = await openCampaign(folder);
  if (date === undefined) {
    const inventory = reconcileCampaign(campaign);
    if (words.flag('json')) sayJson(inventory);
    else sayInventory(inventory, unit);
  } else {
    const day = reconcileDay(campaign, date);
    if (words.flag('json')) sayJson(day);
    else sayDay(day, pipeDays(campaign));
  }
  return sayProblems([
    ...problems.filter(({ table }) => TABLES.includes(table)),
    ...pipeProblems(campaign),
    ...gearProblems(campaign),
  ]);
}

function sayInventory(
  { items, totals, samplers, gear }: ReturnType<typeof reconcileCampaign>,
  unit: CrewUnit,
): void {
  if (items.length + samplers.length + gear.length === 0) {
    print('No pipe, sampler or gear is recorded.');
    return;
  }
  const say = (m: number | null): string => (m === null ? 'not measured' : sayLength(m, unit));
  if (items.length > 0) {
    sayTable([
      ['item', 'length', 'where'],
      ...items.map((item) => [
        `${item.item.replace('_', ' ')} ${item.label}`,
        say(item.length_m),
        whereWords(item),
      ]),
    ]);
    print('');
    sayTable([
      ['total', 'items', 'length'],
      ...totals.map(({ item, whereabouts, items: count, length_m }) => [
        `${item.replace('_', ' ')}, ${whereabouts === 'missing' ? 'not accounted for' : whereabouts}`,
        String(count),
        sayLength(length_m, unit),
      ]),
    ]);
  }
  for (const sampler of samplers) print(`Sampler ${sampler.sampler}: ${samplerWords(sampler)}.`);
  for (const each of gear)
    print(`${each.gear}${each.count === null ? '' : `, ${each.count}`}: ${gearWords(each)}.`);
}

function sayDay(day: DayPipe, days: readonly string[]): void {
  const lines = [
    ['Went in', day.wentIn],
    ['Came back', day.back],
    ['Came back damaged', day.damaged],
    ['Cut', day.cut],
    ['Left', day.left],
    ['Lost', day.lost],
    ['Still in the string', day.inString],
    ['Not accounted for', day.unaccounted],
    ['Without a date', day.undated],
  ] as const;
  let said = 0;
  for (const [name, items] of lines) {
    for (const line of byHole(items)) {
      print(`${name}: ${line}.`);
      said++;
    }
  }
  if (said === 0)
    print(`No pipe on ${day.date}. Days with pipe: ${days.length === 0 ? 'none' : days.join(', ')}.`);
}

/** "H1, joints A1, A2" for each hole. */
const byHole = (items: readonly TallyItem[]): string[] =>
  [...Map.groupBy(items, ({ hole }) => hole)].map(([hole, of]) => `${hole}, ${itemsWords(of)}`);
