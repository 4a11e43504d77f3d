/** What the permits demand when a hole is ended: seal, pipe and gear, report. In their own words. */
import { closingOf, type HoleState, type RowSource } from '@stillstand/campaign/holes';
import { t } from '../../../language/index.ts';

export function PermitNote({ now, source }: { now: HoleState; source: RowSource }) {
  const demands = closingOf(source, now.row.hole);
  if (demands.length === 0) return null;
  return (
    <div className="permit-note">
      <strong>{t`Permits demand at the end of this hole`}</strong>
      <ul>
        {demands.map(({ permit, words }) => (
          <li key={permit}>
            {permit}: {words}
          </li>
        ))}
      </ul>
      <p>{t`The text of the permit and local law decide.`}</p>
    </div>
  );
}
