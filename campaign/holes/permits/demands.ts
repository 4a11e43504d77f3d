/** What the permits demand: while drilling, and when a hole is ended. As entered; the text of the permit decides. */
import type { Row } from '@stillstand/campaign/tables';

export interface PermitDemand {
  permit: string;
  words: string;
}

type Permits = readonly Row<'permits'>[];

/** A permit that was refused, or is not needed, demands nothing; one still asked for may. */
const inForceAt = (permits: Permits, site: string | null): Permits =>
  permits.filter(
    (p) =>
      p.state !== 'refused' &&
      p.state !== 'not_needed' &&
      (p.site === null || site === null || p.site === site),
  );

/** Conditions while drilling, of every site. */
export const permitConditions = (permits: Permits): PermitDemand[] =>
  inForceAt(permits, null).flatMap(({ permit, site, conditions }) =>
    (conditions ?? '').trim() === ''
      ? []
      : [{ permit: site === null ? permit : `${permit} (${site})`, words: conditions!.trim() }],
  );

/** What is due when a hole at this site is ended: seal, pipe and gear left, and the report. */
export const closingDemands = (permits: Permits, site: string | null): PermitDemand[] =>
  inForceAt(permits, site).flatMap((row) => {
    const { closing_seal: seal, closing_pipe: pipe, closing_report: report, report_due: due } = row;
    const said = [
      ...(seal === null ? [] : [`seal: ${seal}`]),
      ...(pipe === null ? [] : [`pipe and gear: ${pipe}`]),
      ...(report === null && due === null
        ? []
        : [`report${report === null ? '' : ` to ${report}`}${due === null ? '' : ` by ${due}`}`]),
    ];
    return said.length === 0 ? [] : [{ permit: row.permit, words: said.join('; ') }];
  });

/** "Shore licence: seal: bentonite; report to the coast office by 2024-06-30." */
export const demandWords = (demands: readonly PermitDemand[]): string =>
  demands.map(({ permit, words }) => `${permit}: ${words.replace(/\.$/, '')}.`).join(' ');
