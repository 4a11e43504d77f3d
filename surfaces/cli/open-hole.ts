/** One hole of a campaign as the rig's commands need it: its state, its document, and what is wrong with its readings. */
import type { Campaign, CampaignDocument } from '@stillstand/campaign/document';
import {
  type HoleState,
  holeProblems,
  holeState,
  RIG_TABLES,
  type RowSource,
  rowsOfDocument,
  safetyProblems,
} from '@stillstand/campaign/holes';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { openCampaign } from './campaign-folder.ts';
import { WrongUse } from './command.ts';
import type { CrewUnit } from './crew-length.ts';

export interface RigHole extends HoleState {
  name: string;
  campaign: Campaign;
  document: CampaignDocument;
  typed: RowSource;
  unit: CrewUnit;
  /** Of reading the hole's tables, and of what its readings say. */
  problems: Problem[];
}

/** As it stood after the reading `at` (its seq), or after the last. */
export async function openRigHole(path: string, name: string, at?: number): Promise<RigHole> {
  const { campaign, document, problems } = await openCampaign(path);
  const typed = rowsOfDocument(document);
  const state = holeState({ ...campaign, typed }, name, at);
  if (state === null) {
    const labels = campaign.rows.holes.map((h) => h.hole).join(', ');
    throw new WrongUse(`No hole “${name}”. There are: ${labels === '' ? 'none' : labels}.`);
  }
  return {
    ...state,
    name,
    campaign,
    document,
    typed,
    unit: state.units.last === 'ft' ? 'ft' : 'm',
    problems: [
      ...problems.filter((p) => (RIG_TABLES as readonly string[]).includes(p.table) && isOf(p, name)),
      ...holeProblems(campaign, state.row, state.entries, state.findings),
      ...safetyProblems(campaign).filter((p) => isOf(p, name) || !isOfSomeHole(p, campaign)),
    ],
  };
}

/** A problem of this hole, or one whose hole cannot be told. */
function isOf(p: Problem, hole: string): boolean {
  return p.label === null || p.label === hole || p.label.startsWith(`${hole} `);
}

/** A standing no of a day is of every hole. */
const isOfSomeHole = (p: Problem, campaign: Campaign): boolean =>
  campaign.rows.holes.some((h) => h.hole === p.label);

/** Said by commands about a hole whose string is already out. */
export const AT_OPTION = {
  at: {
    type: 'string',
    value: 'SEQ',
    about: 'the hole as it stood after this reading; the last if not given',
  },
} as const;

/** Why a string has no length: nothing is in the hole, or a joint of it was not measured. */
export function noString(hole: RigHole): Problem {
  const string = hole.readings.findLast((r) => /^(?:drive|sounding|run)$/.test(r.kind));
  return hole.fold.joints_in === 0
    ? missingReading(
        'joints',
        hole.name,
        'a string in the hole',
        string === undefined
          ? 'Nothing has gone in yet: enter shoe and joints.'
          : `The string is out. Use --at SEQ to see it earlier, for example --at ${string.seq}.`,
      )
    : missingReading('joints', hole.name, 'collar to shoe', 'Enter the length of every joint in the string.');
}

/** A needed reading that is not there. */
export function missingReading(table: string, label: string | null, expected: string, fix: string): Problem {
  return problem({ severity: 'error', code: 'reading-missing', table, label, found: '', expected, fix });
}

/** A folder and a hole, or neither: the rig's commands take both or plain options. */
export function holeWords(positionals: readonly string[]): [string, string] | null {
  if (positionals.length === 0) return null;
  const [folder, hole, ...others] = positionals;
  if (folder === undefined || hole === undefined || others.length > 0) {
    throw new WrongUse('Expected a campaign folder and one hole, or no folder and the lengths as options');
  }
  return [folder, hole];
}
