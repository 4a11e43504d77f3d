/** The name a person knows a campaign by. */
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
