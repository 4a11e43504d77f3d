/** Two copies of one campaign: what a merge of them would do, and the merge as one change. */
import type { CampaignDocument } from '@stillstand/campaign/document';

export { openConflicts } from './open-conflicts.ts';
export { planMerge } from './plan.ts';
export type {
  ConflictChoice,
  ConflictSide,
  Decisions,
  MergeConflict,
  MergeNote,
  MergePlan,
  MergeSide,
  Side,
  StrandAct,
  TableCount,
} from './shape.ts';
export { mergedCopy, mergedUpdate } from './update.ts';

/** By the identity that the package states. */
export function sameCampaign(
  ours: Pick<CampaignDocument, 'package'>,
  theirs: Pick<CampaignDocument, 'package'>,
): 'same' | 'other' | 'not stated' {
  const [here, there] = [ours, theirs].map((document) => {
    const id = document.package?.['id'];
    return typeof id === 'string' ? id.trim() : '';
  });
  if (here === '' || there === '') return 'not stated';
  return here === there ? 'same' : 'other';
}
