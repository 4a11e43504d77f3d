/** `stillstand environments`: which environment stood where and when, in a campaign. */
import type { Campaign } from '@stillstand/campaign/document';
import type { EnvironmentResult, LineThroughTime } from '@stillstand/campaign/results';
import { spellName } from '@stillstand/output/words';
import type { Range } from '@stillstand/science/base';
import { computeOpened, openCampaign } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { print, progress, sayJson, sayProblems, sayTable } from '../say.ts';

export const environments: Command = {
  name: 'environments',
  summary: 'Says which environment stood where and when, from the ages of the layers.',
  usage: [
    'environments FOLDER [--holes T2,T3] [--line A] [--ages 8000,7000] [--inside "land surface,fen"] [--json]',
  ],
  options: {
    holes: {
      type: 'string',
      value: 'HOLES',
      about: 'holes whose ages against depth are modelled; those of the setting age_depth if not given',
    },
    line: { type: 'string', value: 'A', about: 'one section line; all if not given' },
    ages: {
      type: 'string',
      value: 'AGES',
      about: 'ages at which the line is described, cal BP; round ones if not given',
    },
    inside: {
      type: 'string',
      value: 'WORDS',
      about: 'environments on the inner side of the edge that is followed; those of the land if not given',
    },
  },
  more: [
    'Layers need an environment, and holes ages against depth: these take from seconds to a minute a hole. The sea-level curve is computed',
    'too, where the campaign has points for one, for what kept up with the sea. All ranges are 95 %. With --json also the probability of',
    'every environment at every age, the surface, and the way of the edge. Nothing is written. Methods: docs/methods/environments.md.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  if (folder === undefined) throw new WrongUse('Expected a campaign; found none');
  if (others.length > 0) throw new WrongUse(`One campaign at a time; found also ${others.join(' ')}`);
  const opened = await openCampaign(folder);
  const asked: [name: string, option: string][] = [
    ['age_depth', 'holes'],
    ['section_ages', 'ages'],
    ['edge_inside', 'inside'],
  ];
  const campaign = asked.reduce(
    (sum, [name, option]) => withSetting(sum, name, words.text(option)),
    opened.campaign,
  );
  const { results } = await computeOpened(
    { ...opened, campaign },
    { withCurve: true, onProgress: progress('ages and sea level') },
  );
  const line = words.text('line');
  const known = results.sections.map((each) => each.line ?? 'none');
  if (line !== undefined && !known.includes(line))
    throw new WrongUse(`No section line ${line}; there are: ${known.join(', ')}`);
  const lines = results.lines_through_time.filter((each) => line === undefined || each.line === line);
  const onLines = new Set(
    results.sections.flatMap((each) => (each.line === line ? each.holes.map(({ hole }) => hole) : [])),
  );
  const holes = results.environments.filter(({ hole }) => line === undefined || onLines.has(hole));
  if (words.flag('json')) sayJson(plain({ environments: holes, lines_through_time: lines }));
  else {
    if (holes.length === 0)
      print('No hole has ages against depth and a levelled ground. Name some: --holes T2,T3');
    for (const hole of holes) sayHole(hole);
    for (const each of lines) sayLine(each);
  }
  const codes = /^(age-depth|ages-not-|environment-|edge-)/;
  return sayProblems(results.problems.filter(({ code }) => codes.test(code) || code === 'unusable-setting'));
}

/** As if the campaign said so; nothing is written. */
function withSetting(campaign: Campaign, name: string, said: string | undefined): Campaign {
  if (said === undefined) return campaign;
  const value = said.replaceAll(',', ';');
  const settings = campaign.rows.settings.filter((row) => row.name !== name);
  const row = { row_id: `--${name}`, name, value } as Campaign['rows']['settings'][number];
  return { ...campaign, rows: { ...campaign.rows, settings: [...settings, row] } };
}

/** Typed arrays as lists; what is not a number as null. */
const plain = (value: unknown): unknown =>
  JSON.parse(
    JSON.stringify(value, (_, each) => (each instanceof Float64Array ? Array.from(each) : each)),
  ) as unknown;

const year = (age: number): string => Math.round(age).toString().replace('-', '−');
const between = ({ lower95, upper95 }: Range): string => `${year(upper95)} to ${year(lower95)}`;
const rate = ({ median }: Range): string => median.toFixed(1).replace('-', '−');

function sayHole({ hole, converged, spells }: EnvironmentResult): void {
  print(`${hole}${converged ? '' : ', ages not converged: not to be used'}`);
  sayTable([
    [
      'environment',
      'layers',
      'began cal BP',
      '95 %',
      'ended cal BP',
      '95 %',
      'accretion',
      'rise mm/yr',
      'kept up',
    ],
    ...spells.map((spell) => {
      const { units, began_cal_bp: began, ended_cal_bp: ended, against_sea: sea } = spell;
      return [
        spellName(spell),
        units.map(({ unit }) => unit).join(', '),
        began === null ? '' : year(began.median),
        began === null ? '' : between(began),
        ended === null ? '' : year(ended.median),
        ended === null ? '' : between(ended),
        sea === null ? '' : rate(sea.accretion_mm_yr),
        sea === null ? '' : rate(sea.rise_mm_yr),
        sea === null ? '' : sea.kept_up.toFixed(2),
      ];
    }),
  ]);
}

function sayLine({ line, edge, stood, past_sections }: LineThroughTime): void {
  print('', line === null ? 'Line through all holes' : `Line ${line}`);
  if (edge === null) print('No edge: fewer than two holes say on which side of it they were.');
  else {
    print(`Edge of ${edge.inner.join(', ')}; farthest inside: ${edge.innermost}`);
    sayTable([
      ['passed', 'at m', 'came', 'cal BP', '95 %'],
      ...edge.passages.map(({ hole, along_m, came, age_cal_bp }) => [
        hole,
        along_m.toFixed(1),
        came,
        year(age_cal_bp.median),
        between(age_cal_bp),
      ]),
    ]);
  }
  sayTable([
    ['stood', 'in', 'from cal BP', '95 %', 'to cal BP', '95 %', 'unbroken in', 'for at least yr (0.95)'],
    ...stood.map((each) => [
      each.environment,
      each.holes.join(', '),
      year(each.began_cal_bp.median),
      between(each.began_cal_bp),
      year(each.ended_cal_bp.median),
      between(each.ended_cal_bp),
      each.longest_in,
      year(Math.floor(each.at_least_yr)),
    ]),
  ]);
  for (const { age_cal_bp, holes } of past_sections)
    print(
      `${year(age_cal_bp)} cal BP: ${holes
        .map((at) => `${at.hole} ${spellName(at)} ${at.probability.toFixed(2)}`)
        .join('; ')}`,
    );
}
