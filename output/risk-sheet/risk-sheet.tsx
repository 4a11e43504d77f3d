/** The risk assessment of a site and a day: what could happen, what is done about it, and who signs for it. */
import type { Campaign } from '@stillstand/campaign/document';
import { HIGH_RISK_ACT, isHigh, RISK_CAUTION } from '@stillstand/campaign/holes';
import type { Row } from '@stillstand/campaign/tables';
import { Said, SheetHead, Signed, sheetHtml } from '@stillstand/output/sheet';
import { counted } from '@stillstand/output/words';

export interface RiskSheet {
  campaign: string;
  /** `2024-03-05`; empty: to be written in. */
  date: string;
  /** Empty: of all sites. */
  site: string;
  crew: string;
  risks: readonly Row<'risks'>[];
  /** Rows of the table that cannot be used. */
  unusable: number;
}

/** The sheet of one site and one day; without a site, every risk with the site it is for. */
export function riskSheetOf(
  { name, rows, skipped_rows }: Pick<Campaign, 'name' | 'rows' | 'skipped_rows'>,
  date: string,
  site: string,
): RiskSheet {
  return {
    campaign: name,
    date,
    site,
    crew: rows.field_days.find((day) => day.date === date)?.crew ?? '',
    risks: rows.risks.filter((risk) => site === '' || risk.site === null || risk.site === site),
    unusable: skipped_rows.filter(({ table }) => table === 'risks').length,
  };
}

/** More rows than this are set smaller. */
const MOST_ROWS = 12;

/** An HTML document that loads nothing and prints on A4, on as many pages as it has rows for. */
export const riskSheetHtml = (sheet: RiskSheet): string =>
  sheetHtml(
    ['Risk assessment', sheet.campaign, sheet.date].filter(Boolean).join(', '),
    sheet.risks.length > MOST_ROWS,
    <Sheet {...sheet} />,
  );

function Sheet({ campaign, date, site, crew, risks, unusable }: RiskSheet) {
  const high = risks.filter(isHigh);
  return (
    <>
      <SheetHead title={`Risk assessment ${date}`} campaign={campaign} />
      <div className="people">
        <Said name="Site" words={site} />
        <Said name="Date" words={date} />
        <Said name="Crew" words={crew} />
        <Said name="Assessed by" words="" />
      </div>
      {high.length === 0 ? null : (
        <>
          <h2>Dangers</h2>
          <ul>
            {high.map(({ row_id, hazard }) => (
              <li key={row_id} className="danger">
                {hazard}: residual risk high. {HIGH_RISK_ACT}
              </li>
            ))}
          </ul>
        </>
      )}
      <h2>Hazards and controls</h2>
      {risks.length === 0 ? (
        <p className="quiet">No risk recorded.</p>
      ) : (
        <table>
          <thead>
            <tr>
              <th scope="col">hazard</th>
              <th scope="col">who could be harmed</th>
              <th scope="col">control</th>
              <th scope="col">who sees to it</th>
              <th scope="col">residual</th>
              <th scope="col">reviewed</th>
            </tr>
          </thead>
          <tbody>
            {risks.map((risk) => (
              <tr key={risk.row_id}>
                <td className="id">
                  {risk.hazard}
                  {site === '' && risk.site !== null ? `, ${risk.site}` : ''}
                </td>
                <td>{risk.who ?? ''}</td>
                <td>{risk.control ?? ''}</td>
                <td>{risk.controlled_by ?? ''}</td>
                <td className={isHigh(risk) ? 'danger' : undefined}>{risk.residual ?? ''}</td>
                <td>{risk.reviewed ?? ''}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <h2>Changed at the place</h2>
      <p className="plan" />
      <Signed rows={3} />
      <p className="foot">
        {unusable === 0
          ? ''
          : `${counted(unusable, 'row')} cannot be used: see the problems of the campaign. `}
        {RISK_CAUTION}
      </p>
    </>
  );
}
