/** The report: one page that opens offline, runs nothing and prints well. */
import type { Dating } from '@stillstand/campaign/budget';
import type { CampaignPipe } from '@stillstand/campaign/holes';
import { curveOf, type Results } from '@stillstand/campaign/results';
import { pageHtml } from '@stillstand/output/page';
import { counted } from '@stillstand/output/words';
import { type ReactNode, useContext } from 'react';
import { figurePlacer, type ReportFigure, telling } from './placing.tsx';
import { each } from './quantity.tsx';
import { Account } from './sections/account.tsx';
import { Cautions } from './sections/cautions.tsx';
import { Ages, Diagnostics } from './sections/curve.tsx';
import { Dates } from './sections/dates.tsx';
import { Found } from './sections/found.tsx';
import { GrainSizes } from './sections/grain-sizes.tsx';
import { Holes, Shortening } from './sections/holes.tsx';
import { LeadProfiles } from './sections/lead.tsx';
import { Methods } from './sections/methods.tsx';
import { OtherSites } from './sections/other-sites.tsx';
import { Points } from './sections/points.tsx';
import { MoreProblems, ProblemsBeside } from './sections/problems.tsx';
import { Provenance, Settings } from './sections/provenance.tsx';
import { ThroughTime } from './sections/through-time.tsx';
import { remarksOf, Unsettled } from './sections/unsettled.tsx';
import { Whereabouts } from './sections/whereabouts.tsx';
import { STYLE } from './style.ts';
import { WhereAnswers } from './where/answers.tsx';
import { type Asked, AskedContext } from './where/from.tsx';
import type { WhereFrom } from './where/where-from.ts';

export interface ReportOptions {
  /** `@font-face` rules of the two typefaces, as data: the page loads nothing. */
  fontCss: string;
  /** Where the pipe, the samplers and the gear of the campaign are; without it only the tally of each hole is said. */
  pipe?: CampaignPipe;
  /** What dates have cost and which samples are away; without it every layer is ranked and no funds are counted. */
  dating?: Dating;
  /** Lets every reported number say where it comes from, down to the readings; without it the page answers nothing. */
  where?: WhereFrom;
}

/**
 * An HTML document. Figures are SVG documents without their captions, placed by name (`column-…`, `section`, `dates`, `environments`,
 * `curve`, `curve-NAME` of other sites, `…budget-POINT`, `plate` at the end; others come before the methods) and numbered; error budgets only of the two points that
 * decide most. The same results and the same pipe give the same page.
 */
export function reportHtml(
  results: Results,
  figures: readonly ReportFigure[],
  options: ReportOptions,
): string {
  const asked: Asked | null =
    options.where === undefined ? null : { where: options.where, curve: null, ids: new Set() };
  return pageHtml(
    { title: titleOf(results), style: options.fontCss + STYLE, holds: ['font', 'img'] },
    <AskedContext value={asked}>
      <Report results={results} figures={figures} options={options} />
    </AskedContext>,
  );
}

const titleOf = ({ name }: Results): string => (name === '' ? 'Campaign without a name' : name);

function Report(props: { results: Results; figures: readonly ReportFigure[]; options: ReportOptions }) {
  const { results, figures, options } = props;
  const curve = curveOf(results);
  const place = figurePlacer(telling(figures, curve));
  // In the order of the page, so that figures are numbered as they are met.
  const curveFigures = place('curve');
  const sections: { id: string; title: string; body: ReactNode }[] = [
    ...(results.curves.length < 2
      ? []
      : [
          {
            id: 'sites',
            title: 'Other sites',
            body: (
              <>
                {place('sites')}
                <OtherSites results={results} dating={options.dating ?? null} />
              </>
            ),
          },
        ]),
    {
      id: 'holes',
      title: 'Holes',
      body: (
        <>
          <Holes results={results} />
          {place('section')}
          <Shortening holes={results.holes} />
          {place('registration')}
          {place('column')}
          {place('laboratory')}
          <GrainSizes results={results} />
        </>
      ),
    },
    {
      id: 'dates',
      title: 'Dates',
      body: (
        <>
          <Dates results={results} />
          <LeadProfiles results={results} />
          {place('dates')}
        </>
      ),
    },
    ...(results.lines_through_time.length === 0
      ? []
      : [
          {
            id: 'environments',
            title: 'Environments through time',
            body: (
              <>
                {place('environments')}
                <ThroughTime results={results} />
              </>
            ),
          },
        ]),
    {
      id: 'points',
      title: 'Points',
      body: (
        <>
          <Points results={results} />
          {place('points')}
        </>
      ),
    },
  ];
  const remarks = remarksOf(results);
  if (curve !== null || remarks.length > 0) {
    sections.push({
      id: 'diagnostics',
      title: 'Diagnostics',
      body: (
        <>
          <Unsettled remarks={remarks} />
          {curve === null ? null : (
            <Diagnostics curve={curve} results={results} dating={options.dating ?? null} />
          )}
        </>
      ),
    });
  }
  const further = place('further');
  if (further !== null) sections.push({ id: 'further', title: 'Further figures', body: further });
  const recovery = place('recovery');
  const penetration = place('penetration');
  sections.push(
    { id: 'methods', title: 'Methods', body: <Methods results={results} /> },
    {
      id: 'cautions',
      // a danger is not called a caution
      title: results.problems.some((p) => p.code === 'safety-no' && p.severity === 'danger')
        ? 'Dangers and cautions'
        : 'Cautions',
      body: <Cautions results={results} />,
    },
    ...(recovery === null && penetration === null
      ? []
      : [
          {
            id: 'drilling',
            title: 'Drilling',
            body: (
              <>
                {recovery}
                {penetration}
              </>
            ),
          },
        ]),
    {
      id: 'pipe',
      title: 'Pipe tally',
      body: (
        <>
          <Account results={results} />
          {options.pipe === undefined ? null : <Whereabouts pipe={options.pipe} />}
        </>
      ),
    },
    { id: 'settings', title: 'Settings', body: <Settings results={results} /> },
    { id: 'provenance', title: 'Provenance', body: <Provenance results={results} /> },
  );
  // A page of its own at the end: all it shows has been shown in its place.
  const plate = place('plate');
  if (plate !== null) sections.push({ id: 'plate', title: 'Summary plate', body: plate });
  return (
    <>
      <header className="top">
        <div className="name">
          <span>Stillstand</span>
          <span>report of a campaign</span>
        </div>
        <h1>{titleOf(results)}</h1>
        <p className="sub">{extent(results)}</p>
        <nav className="contents">
          <a href="#found">What was found</a>
          {each(sections, (section) => (
            <a href={`#${section.id}`}>{section.title}</a>
          ))}
        </nav>
        <p className="once">
          ± is 2 sd, here and below; results of laboratories keep the 1 sd they came with, and say so. Ages
          are cal BP, years before 1950 CE; rates are positive where the sea rises.
          {options.where === undefined ? null : (
            <span className="screen">
              {' '}
              Press an underlined number to see where it comes from, down to the readings.
            </span>
          )}
        </p>
      </header>
      <main>
        <div className="beside">
          <section>
            <Found results={results} />
          </section>
          <section>
            <ProblemsBeside results={results} />
          </section>
        </div>
        {curve === null ? null : <Ages curve={curve} />}
        {curveFigures}
        <MoreProblems results={results} />
        {each(sections, (section) => (
          <section id={section.id}>
            <h2>{section.title}</h2>
            {section.body}
          </section>
        ))}
      </main>
      <Where />
    </>
  );
}

/** Last of all: by then the page has asked everything. */
function Where() {
  const asked = useContext(AskedContext);
  return asked === null ? null : <WhereAnswers asked={asked} />;
}

function extent({ holes, dates, points, datum }: Results): string {
  const zero = datum.epoch === null ? datum.label : `${datum.label} (${datum.epoch})`;
  const parts = [
    counted(holes.length, 'hole'),
    counted(dates.length, 'date'),
    counted(points.length, 'point'),
  ];
  return `Relative sea level from ${parts[0]}, ${parts[1]} and ${parts[2]}. Heights in metres above ${zero}.`;
}
