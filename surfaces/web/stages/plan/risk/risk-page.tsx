/** The risk assessment as it will print, under its list; on paper nothing else of the page is printed with it. */
import { useEffect, useState } from 'react';
import { createPortal } from 'react-dom';
import { useComputation } from '../../../compute/index.ts';
import { Button, download, fileName, PaperPage } from '../../../parts/index.ts';
import { useTheme } from '../../../shell/index.ts';
import './risk-page.css';

export function RiskPage({ date }: { date: string }) {
  const { campaign } = useComputation();
  const { theme } = useTheme();
  const [site, setSite] = useState('');
  const [html, setHtml] = useState<string | null>(null);
  const sites = campaign?.rows.sites.map((row) => row.site) ?? [];
  useEffect(() => {
    let isOver = false;
    if (campaign !== null)
      // What draws it is loaded when it is first asked for.
      void import('@stillstand/output/risk-sheet').then(({ riskSheetHtml, riskSheetOf }) => {
        if (!isOver) setHtml(riskSheetHtml(riskSheetOf(campaign, date, site)));
      });
    return () => {
      isOver = true;
    };
  }, [campaign, date, site]);
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
