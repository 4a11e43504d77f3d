/** Which section line is shown, a new one, and the ground along it. */
import type { Results, SectionResult } from '@stillstand/campaign/results';
import { useState } from 'react';
import { Button } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { LineEntry } from './line-entry.tsx';
import { ProfileEntry } from './profile-entry.tsx';

export function LineChoice({
  results,
  section,
  onLine,
  onSaid,
}: {
  results: Results;
  section: SectionResult | null;
  onLine: (line: string) => void;
  onSaid: (words: string) => void;
}) {
  const store = useStore();
  const [open, setOpen] = useState<'line' | 'profile' | null>(null);
  const close = (): void => setOpen(null);
  return (
    <div className="section-lines">
      <label>
        Section line{' '}
        <select
          aria-label="Section line"
          value={section?.line ?? ''}
          title="Each line goes through its holes in their order"
          onChange={(event) => onLine(event.target.value)}
        >
          {results.sections.map(({ line }) => (
            <option key={line} value={line ?? ''}>
              {line ?? 'all holes'}
            </option>
          ))}
        </select>
      </label>
      {store.readOnly ? null : (
        <>
          <Button mark="plus" onClick={() => setOpen('line')}>
            New section line
          </Button>
          {section === null ? null : <Button onClick={() => setOpen('profile')}>Paste ground profile</Button>}
        </>
      )}
      {open === 'line' ? (
        <LineEntry
          results={results}
          onDone={(line) => {
            close();
            onLine(line);
            onSaid(`Section line ${line} added. Undo takes it back.`);
          }}
          onClose={close}
        />
      ) : null}
      {open === 'profile' && section !== null ? (
        <ProfileEntry
          section={section}
          onDone={(words) => {
            close();
            onSaid(`${words} Undo takes it back.`);
          }}
          onClose={close}
        />
      ) : null}
    </div>
  );
}
