/** Where every sample and core is, and who has what until when. */
import type { Campaign } from '@stillstand/campaign/document';
import type { ArchivePart } from '@stillstand/output/lists';
import { useMemo, useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button, Field, useLoaded } from '../../../parts/index.ts';
import { today } from '../../../store/index.ts';
import { ListPaper, type Lists, loadLists } from './list-paper.tsx';

const PARTS: Readonly<Record<ArchivePart, string>> = {
  all: 'all samples and cores',
  away: 'sent or lent',
  loans: 'on loan',
};

export function ArchivePage({ onClose }: { onClose: () => void }) {
  const lists = useLoaded(loadLists);
  const { campaign } = useComputation();
  return (
    <div className="list-page">
      <header>
        <h2>Archive list</h2>
        <Button kind="bare" mark="cross" aria-label="Leave the archive list" onClick={onClose} />
      </header>
      {lists === null || campaign === null ? (
        <p role="status">Making the list.</p>
      ) : (
        <Archive lists={lists} campaign={campaign} />
      )}
    </div>
  );
}

function Archive({ lists, campaign }: { lists: Lists; campaign: Campaign }) {
  const [part, setPart] = useState<ArchivePart>('all');
  const day = today();
  const list = useMemo(() => lists.archiveOf(campaign, day, part), [lists, campaign, day, part]);
  return (
    <>
      <div className="fields">
        <Field name="Show" help={{ about: 'All, those that are not in store, or those on loan' }}>
          {(input) => (
            <select
              {...input}
              value={part}
              onChange={({ target }) =>
                setPart(lists.ARCHIVE_PARTS.find((one) => one === target.value) ?? part)
              }
            >
              {lists.ARCHIVE_PARTS.map((one) => (
                <option key={one} value={one}>
                  {PARTS[one]}
                </option>
              ))}
            </select>
          )}
        </Field>
      </div>
      {list.rows.length === 0 ? (
        <p className="quiet">
          {part === 'all' ? 'There is no sample and no core yet.' : 'No sample or core is away.'}
        </p>
      ) : (
        <ListPaper lists={lists} list={list} name={`${list.title} ${day}`} />
      )}
    </>
  );
}
