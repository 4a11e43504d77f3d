/** Which section line is shown, a new one, and the ground along it. */
import type { Results, SectionResult } from '@stillstand/campaign/results';
import { whyNoFence } from '@stillstand/output/figures';
import { useState } from 'react';
import { Button } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { LineEntry } from './line-entry.tsx';
import { ProfileEntry } from './profile-entry.tsx';

/** In the list of lines; no label of a line has a slash before it. */
export const FENCE = '/fence';

export function LineChoice({
  results,
  section,
  isFence,
  onLine,
  onSaid,
}: {
  results: Results;
  section: SectionResult | null;
  isFence: boolean;
  onLine: (line: string) => void;
  onSaid: (words: string) => void;
}) {
  const store = useStore();
  const [open, setOpen] = useState<'line' | 'profile' | null>(null);
  const close = (): void => setOpen(null);
  const hasFence = whyNoFence(results) === null;
  return (
    <div className="section-lines">
      <label>
        Section line{' '}
        <select
          aria-label="Section line"
          value={isFence ? FENCE : (section?.line ?? '')}
          title="Each line goes through its holes in their order"
          onChange={(event) => onLine(event.target.value)}
        >
          {results.sections.map(({ line }) => (
            <option key={line} value={line ?? ''}>
              {line ?? 'all holes'}
            </option>
          ))}
          {hasFence ? <option value={FENCE}>fence of all lines</option> : null}
        </select>
      </label>
      {store.readOnly ? null : (
        <>
          <Button mark="plus" onClick={() => setOpen('line')}>
            New section line
          </Button>
          {section === null || isFence ? null : (
            <Button onClick={() => setOpen('profile')}>Paste ground profile</Button>
          )}
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
