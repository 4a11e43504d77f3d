/** What a campaign is known by: its name to a person, its id to its copies. */
import type { CampaignDocument } from '@stillstand/campaign/document';
import { plainWord } from '@stillstand/campaign/tables';

/** The setting `name`, else the title or name in the package: what parsing takes, without parsing. */
export function campaignName({ tables, package: description }: CampaignDocument): string {
  const settings = tables.get('settings');
  const at = (column: string): number =>
    settings?.columns.findIndex((head) => plainWord(head) === column) ?? -1;
  const row = settings?.rows.find(({ cells }) => cells[at('name')]?.trim() === 'name');
  const chosen = row?.cells[at('value')]?.trim() ?? '';
  if (chosen !== '') return chosen;
  const { title, name } = (description ?? {}) as { title?: unknown; name?: unknown };
  return typeof title === 'string' ? title : typeof name === 'string' ? name : '';
}

/** The id of its package, which all copies of one campaign have; null where it states none. */
export function packageId({ package: description }: CampaignDocument): string | null {
  const { id } = (description ?? {}) as { id?: unknown };
  return typeof id === 'string' && id !== '' ? id : null;
}
