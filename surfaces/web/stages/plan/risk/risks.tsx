/** The risk assessment: begun from the tool's cautions, gone through and changed in place, printed and signed. */
import { HIGH_RISK_ACT, isHigh, RISK_CAUTION, riskOpen, risksFromCautions } from '@stillstand/campaign/holes';
import { useState } from 'react';
import { Button, Plate } from '../../../parts/index.ts';
import { useStore } from '../../../store/index.ts';
import { freeLabel } from '../records/free-label.ts';
import { RecordList } from '../records/record-list.tsx';
import { RiskPage } from './risk-page.tsx';

const COLUMNS = ['who', 'control', 'controlled_by', 'residual'] as const;
const MORE = [{ title: 'More about the risk', columns: ['hazard', 'site', 'reviewed', 'note'] }] as const;

/** `date` is the day planned, `2024-03-05`. */
export function Risks({ date }: { date: string }) {
  const store = useStore();
  const [added, setAdded] = useState<string | null>(null);
  const [isShown, setShown] = useState(false);
  const rows = store.rows('risks');
  const typed = rows.map(({ cells }) => ({ hazard: cells['hazard'] ?? '', check: cells['check'] ?? null }));
  const names = typed.map(({ hazard }) => hazard.trim());
  const proposed = risksFromCautions(typed);
  const high = rows.filter(({ cells }) => isHigh(cells));
  const start = (): void => {
    store.together(() => {
      for (const cells of proposed) store.addRow('risks', { ...cells });
    });
  };
  return (
    <section className="rows risks" aria-labelledby="risks-title">
      <h2 id="risks-title">Risk assessment</h2>
      {high.length === 0 ? null : (
        <Plate state="danger" word="Risk stays high">
          {high.map(({ row_id, cells }) => (
            <p key={row_id}>
              {cells['hazard']}. {HIGH_RISK_ACT}
            </p>
          ))}
        </Plate>
      )}
      <RecordList
        table="risks"
        rows={rows}
        added={added}
        said={({ cells }) => ({
          name: cells['hazard']?.trim() ?? '',
          words: [residualWords(cells['residual'] ?? ''), riskOpen(cells)].filter(Boolean).join('; '),
          level: isHigh(cells) ? 'stop' : riskOpen(cells) === null ? 'ok' : 'warn',
        })}
        columns={COLUMNS}
        more={MORE}
        remove="Delete risk"
      />
      <div className="acts">
        {store.readOnly ? null : (
          <>
            {proposed.length === 0 ? null : (
              <Button mark="plus" onClick={start}>
                {rows.length === 0 ? 'Start from the cautions' : `Add ${proposed.length} cautions left out`}
              </Button>
            )}
            <Button
              mark="plus"
              onClick={() => setAdded(store.addRow('risks', { hazard: freeLabel('Hazard', names) }))}
            >
              Add risk
            </Button>
          </>
        )}
        <Button onClick={() => setShown(!isShown)} aria-expanded={isShown}>
          {isShown ? 'Close risk sheet' : 'Show risk sheet'}
        </Button>
      </div>
      <p className="quiet small">{RISK_CAUTION}</p>
      {isShown ? <RiskPage date={date} /> : null}
    </section>
  );
}

const residualWords = (residual: string): string =>
  residual.trim() === '' ? '' : `residual risk ${residual}`;
