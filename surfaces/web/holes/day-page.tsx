/** The end of a day: what is planned next, and the sheet of the day as it will print, the same the command line writes. */

import { parseCampaign } from '@stillstand/campaign/document';
import { dayFacts } from '@stillstand/campaign/holes';
import { useEffect, useState } from 'react';
import { t } from '../language/index.ts';
import { Button, ColumnField, download, fileName, PaperPage } from '../parts/index.ts';
import { useTheme } from '../shell/index.ts';
import type { Store } from '../store/index.ts';
import { asTyped } from './as-typed.ts';
import './day-page.css';

export function DayPage({
  store,
  date: first,
  onClose,
}: {
  store: Store;
  /** `2024-03-05`: the day shown first. */
  date: string;
  onClose: () => void;
}) {
  const [date, setDate] = useState(first);
  const { theme } = useTheme();
  const html = useDaySheet(store, date);
  const day = store.rows('field_days').find((row) => row.cells['date']?.trim() === date);
  const plan = (plan_next: string): unknown =>
    day === undefined
      ? store.addRow('field_days', { date, plan_next })
      : store.editRow('field_days', day.row_id, { plan_next });
  return (
    <div className="day-page">
      <header>
        <h2>{t`End of day`}</h2>
        <label>
          <span className="unseen">{t`Day of the sheet`}</span>
          <input
            type="date"
            title={t`The day whose sheet is shown`}
            value={date}
            onChange={(event) => (event.target.value === '' ? undefined : setDate(event.target.value))}
          />
        </label>
        <div className="acts">
          <Button mark="save" disabled={html === null} onClick={() => print()}>{t`Print day sheet`}</Button>
          <Button
            disabled={html === null}
            onClick={() =>
              download(
                new Blob([html ?? ''], { type: 'text/html;charset=utf-8' }),
                `${fileName(`day ${date}`)}.html`,
              )
            }
          >{t`Save as a file`}</Button>
          <Button kind="bare" mark="cross" aria-label={t`Leave: End of day`} onClick={onClose} />
        </div>
      </header>
      <div className="plan-next">
        <ColumnField
          key={date}
          table="field_days"
          column="plan_next"
          name="Plan for the next day"
          value={day?.cells['plan_next'] ?? ''}
          disabled={store.readOnly}
          onCommit={plan}
        />
      </div>
      {html === null ? (
        <p role="status">{t`Drawing the page.`}</p>
      ) : (
        <>
          <div className="day-screen">
            <PaperPage html={html} theme={theme} />
          </div>
          <div className="day-paper" aria-hidden="true">
            <PaperPage html={html} theme="print" />
          </div>
        </>
      )}
    </div>
  );
}

/** The page, drawn again when the campaign changes; what draws it is loaded when it is first asked for. */
function useDaySheet(store: Store, date: string): string | null {
  const [html, setHtml] = useState<string | null>(null);
  const document = store.document();
  useEffect(() => {
    let isOver = false;
    void (async () => {
      const { daySheetHtml } = await import('@stillstand/output/day-sheet');
      const { campaign } = parseCampaign(document);
      if (!isOver) setHtml(daySheetHtml(dayFacts(campaign, asTyped(store), date)));
    })();
    return () => {
      isOver = true;
    };
  }, [document, store, date]);
  return html;
}
