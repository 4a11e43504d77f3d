/** Contacts correlated between holes, those with a name, and what is proposed. */
import {
  type CorrelationResult,
  type HorizonResult,
  type ProposalResult,
  resultsShape,
} from '@stillstand/campaign/results';
import { columnsOf, shownAs, someOf } from './described.ts';
import { itself, table } from './table.ts';

const { correlations, horizons, correlation_proposals: proposals } = resultsShape.fields;
const { contacts } = horizons.of.fields;

export const CORRELATIONS = table({
  file: 'correlations.csv',
  entry: 'correlations[]',
  about: correlations.of.about,
  shape: correlations.of,
  rows: (results) => results.correlations,
  read: itself<CorrelationResult>,
});

interface ContactOf {
  of: HorizonResult;
  contact: HorizonResult['contacts'][number];
}

export const HORIZONS = table({
  file: 'horizons.csv',
  entry: 'horizons[].contacts[]',
  about: 'named horizons, a row for each contact of a hole',
  shape: contacts.of,
  rows: (results) =>
    results.horizons.flatMap((of) => of.contacts.map((contact): ContactOf => ({ of, contact }))),
  read: ({ contact }: ContactOf) => contact,
  first: columnsOf(someOf(horizons.of, ['horizon']), ({ of }: ContactOf) => of).map((column) => ({
    ...column,
    field: null,
  })),
});

const score = { decimals: 2 } as const;

export const PROPOSALS = table({
  file: 'correlation_proposals.csv',
  entry: 'correlation_proposals[]',
  about: proposals.of.about,
  shape: proposals.of,
  rows: (results) => results.correlation_proposals,
  read: itself<ProposalResult>,
  plan: {
    shown: {
      margin: shownAs('margin', score),
      sediment: shownAs('sediment', score),
      thickness: shownAs('thickness', score),
      elevation: shownAs('elevation', score),
      measured: shownAs('measured', score),
    },
  },
});
