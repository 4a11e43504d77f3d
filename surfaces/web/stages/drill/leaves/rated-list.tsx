/** Every part that carries the load, with its mark or *not read*: a press enters the mark. */

import { type HoleState, pullLoads } from '@stillstand/campaign/holes';
import { t, translated } from '../../../language/index.ts';
import { Mark } from '../../../parts/index.ts';
import type { Happening } from '../forms/something-else.ts';
import './rated-list.css';

export function RatedList({ now, onHappen }: { now: HoleState; onHappen: (happening: Happening) => void }) {
  const { parts, against, weakest } = pullLoads(now);
  return (
    <ul className="rated-list" aria-label={t`Ratings of the gear`}>
      {parts.map(({ part, rated_kn, says, doubt }) => {
        const verdict = against.find((a) => a.part === part)?.verdict ?? null;
        return (
          <li key={part}>
            <button
              type="button"
              data-level={verdict === 'exceeds' ? 'danger' : verdict === null ? 'normal' : 'caution'}
              onClick={() =>
                onHappen({ name: t`Rating: ${translated(part)}`, says: '', form: 'rating', with: { part } })
              }
            >
              <strong>
                {verdict === null ? null : (
                  <Mark
                    name={verdict === 'exceeds' ? 'stop' : 'close'}
                    size={18}
                    label={translated(verdict)}
                  />
                )}
                {translated(part)}
                {weakest?.part === part ? <small> {t`weakest`}</small> : null}
              </strong>
              <span>{rated_kn === null ? t`not read` : translated(says)}</span>
              {doubt === null ? null : <span className="caution">{t`Unclear: ${translated(doubt)}.`}</span>}
            </button>
          </li>
        );
      })}
    </ul>
  );
}
