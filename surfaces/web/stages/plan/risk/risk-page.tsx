/** The risk assessment as it will print, under its list; on paper nothing else of the page is printed with it. */
import { useMemo, useState } from 'react';
import { createPortal } from 'react-dom';
import { useComputation } from '../../../compute/index.ts';
import { Button, download, fileName, PaperPage, useLoaded } from '../../../parts/index.ts';
import { useTheme } from '../../../shell/index.ts';
import './risk-page.css';

/** What draws it is loaded when it is first asked for. */
const loadSheet = () => import('@stillstand/output/risk-sheet');

export function RiskPage({ date }: { date: string }) {
  const { campaign } = useComputation();
  const { theme } = useTheme();
  const [site, setSite] = useState('');
  const sites = campaign?.rows.sites.map((row) => row.site) ?? [];
  const sheet = useLoaded(loadSheet);
  const html = useMemo(
    () =>
      sheet === null || campaign === null
        ? null
        : sheet.riskSheetHtml(sheet.riskSheetOf(campaign, date, site)),
    [sheet, campaign, date, site],
  );
  if (html === null) return <p role="status">Drawing the page.</p>;
  return (
    <div className="risk-page">
      <div className="acts">
        {sites.length < 2 ? null : (
          <label className="of-hole">
            <span>Site of the sheet</span>
            <select
              title="The site whose risks are printed, with those of every site; a sheet for each"
              value={site}
              onChange={(event) => setSite(event.target.value)}
            >
              <option value="">all sites</option>
              {sites.map((label) => (
                <option key={label} value={label}>
                  {label}
                </option>
              ))}
            </select>
          </label>
        )}
        <Button mark="save" onClick={() => print()}>
          Print risk sheet
        </Button>
        <Button
          onClick={() =>
            download(
              new Blob([html], { type: 'text/html;charset=utf-8' }),
              `${fileName(`risks ${date}`)}.html`,
            )
          }
        >
          Save as a file
        </Button>
      </div>
      <PaperPage html={html} theme={theme} />
      {createPortal(
        <div className="risk-paper" aria-hidden="true">
          <PaperPage html={html} theme="print" />
        </div>,
        document.body,
      )}
    </div>
  );
}
