/** `stillstand submission`: the sheet of a parcel to a laboratory. */
import type { Campaign } from '@stillstand/campaign/document';
import { type Parcel, parcelLabels, parcelSent, samplesToSend, submissionOf } from '@stillstand/output/lists';
import { counted } from '@stillstand/output/words';
import { computeOpened, openCampaign } from '../campaign-folder.ts';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { dayAsked, LIST_OPTIONS, listFileOf, writeList } from '../list-file.ts';
import { print } from '../say.ts';

export const submission: Command = {
  name: 'submission',
  summary: 'Write the sheet of a parcel to a laboratory; filled in, stillstand import reads it as it is.',
  usage: [
    'submission FOLDER --parcel P1 --out sheet.xlsx',
    'submission FOLDER --laboratory LAB --date 2026-03-05 --out sheet.csv [--samples A,B] [--request radiocarbon]',
  ],
  options: {
    parcel: { type: 'string', value: 'LABEL', about: 'a parcel that was sent, by its label in custody' },
    laboratory: {
      type: 'string',
      value: 'LAB',
      about: 'a sheet to this laboratory, of samples that are still to be sent',
    },
    samples: {
      type: 'string',
      value: 'LABELS',
      about: 'with --laboratory: these samples, separated by commas; without it all that have no result',
    },
    request: { type: 'string', value: 'WORDS', about: 'with --laboratory: what is asked for' },
    sender: { type: 'string', value: 'NAME', about: 'who sends it; of a parcel who entered it' },
    date: { type: 'string', value: 'DATE', about: 'with --laboratory: the day it goes' },
    ...LIST_OPTIONS,
  },
  more: [
    'With --laboratory nothing is entered in the campaign: enter the samples as sent in the app or in custody.csv.',
    'Depths and elevations are those computed, with 2σ; expected ages where the ages of the hole are modelled.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [folder, ...others] = words.positionals;
  if (folder === undefined || others.length > 0) throw new WrongUse('Expected one campaign folder or zip');
  const file = listFileOf(words);
  const opened = await openCampaign(folder);
  const parcel = parcelAsked(opened.campaign, words);
  if (parcel.samples.length === 0) {
    print('No sample is waiting to be sent: nothing was written.');
    return 1;
  }
  const { results } = await computeOpened(opened, { withCurve: false });
  await writeList(submissionOf(opened.campaign, results, parcel), file);
  print(`${counted(parcel.samples.length, 'sample')} to ${parcel.laboratory}: ${file.out}`);
  return 0;
}

const ONLY_WITH_LABORATORY = ['samples', 'request', 'date'] as const;

function parcelAsked(campaign: Campaign, words: Words): Parcel {
  const label = words.text('parcel');
  const laboratory = words.text('laboratory');
  if ((label === undefined) === (laboratory === undefined))
    throw new WrongUse(
      'Expected --parcel LABEL of a parcel that was sent, or --laboratory LAB for a new one',
    );
  if (label !== undefined) {
    const alone = ONLY_WITH_LABORATORY.find((option) => words.text(option) !== undefined);
    if (alone !== undefined) throw new WrongUse(`--${alone}: expected --laboratory, not --parcel`);
    const sent = parcelSent(campaign, label);
    if (sent === null) {
      // A parcel of cores alone has no sheet.
      const known = parcelLabels(campaign).filter((one) => parcelSent(campaign, one) !== null);
      throw new WrongUse(`--parcel: ${notAmong(label, known, 'a parcel sent')}`);
    }
    return { ...sent, sender: words.text('sender') ?? sent.sender };
  }
  const known = campaign.rows.laboratories.map((row) => row.laboratory);
  if (!known.includes(laboratory!))
    throw new WrongUse(`--laboratory: ${notAmong(laboratory!, known, 'a laboratory of the campaign')}`);
  const date = dayAsked(words);
  const toSend = samplesToSend(campaign, date);
  const asked = words
    .text('samples')
    ?.split(',')
    .map((sample) => sample.trim());
  const samples = asked ?? toSend.filter(({ hasResult }) => !hasResult).map(({ row }) => row.sample);
  const able = toSend.map(({ row }) => row.sample);
  for (const sample of samples)
    if (!able.includes(sample))
      throw new WrongUse(`--samples: ${notAmong(sample, able, 'a sample that can be sent')}`);
  const purposes = new Map(toSend.map(({ row, purpose }) => [row.sample, purpose]));
  return {
    label: '',
    laboratory: laboratory!,
    sender: words.text('sender') ?? '',
    date,
    samples: samples.map((sample) => ({
      sample,
      request: words.text('request') ?? purposes.get(sample) ?? '',
      amount: '',
      note: '',
    })),
  };
}

/** found “T1-X”, expected …; there are …. */
function notAmong(found: string, known: readonly string[], expected: string): string {
  const there = known.length === 0 ? 'there is none' : `there are ${known.slice(0, 12).join(', ')}`;
  return `found “${found}”, expected ${expected}; ${there}`;
}
