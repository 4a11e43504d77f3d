/**
 * How it was done, in words fit for a methods section, filled from the settings actually used: what was not used is
 * not described. Formulae stand in docs/methods.
 */
import { curveOf, gaugesOf, type Results } from '@stillstand/campaign/results';
import {
  againstTheSea,
  counted,
  curveCalled,
  printed,
  sharedErrorInWords,
  signed,
  THROUGH_TIME_ASSUMES,
  written,
  years,
} from '@stillstand/output/words';
import type { RateModel } from '@stillstand/science/curve';
import { BLOCK_YR } from '@stillstand/science/tide';
import { createElement, Fragment, type ReactNode } from 'react';
import { Assumed, each } from '../quantity.tsx';
import { REFERENCES, type Source, whereOf } from '../references.ts';
import { CURVE_SOURCES } from '../sources.ts';
import { doseRatesInWords } from './dose-rates.tsx';
import { laboratoryMethods } from './laboratory-methods.tsx';

interface Part {
  title: string;
  text: ReactNode;
  cites: Source[];
}

const partsOf = (results: Results): Part[] =>
  [
    depths(results),
    photographs(results),
    laboratoryMethods(results),
    correlation(results),
    section(results),
    heights(results),
    ages(results),
    lead(results),
    throughTime(results),
    points(results),
    curve(results),
  ].filter((part) => part !== null);

/** The papers that the methods text of some results cites, by name. */
export function citedIn(results: Results): Source[] {
  const parts = partsOf(results);
  return (Object.keys(REFERENCES) as Source[]).filter((source) =>
    parts.some(({ cites }) => cites.includes(source)),
  );
}

export function Methods({ results }: { results: Results }) {
  const used = partsOf(results);
  const cited = citedIn(results);
  return (
    <div className="methods">
      {each(used, ({ title, text }) => (
        <>
          <h3>{title}</h3>
          {text}
        </>
      ))}
      <h3>Sources</h3>
      <ul className="sources">
        {each(cited, (source) => (
          <li>
            {source}, {whereOf(source)}.
          </li>
        ))}
      </ul>
    </div>
  );
}

/** A setting's value as used, marked where nobody chose it; null where the computation did not list it. */
function used(results: Results, name: string, unit = ''): ReactNode | null {
  const setting = results.settings.find((each) => each.name === name);
  if (setting === undefined) return null;
  const text = `${setting.value}${unit}`;
  return setting.assumed ? <Assumed>{text}</Assumed> : text;
}

function photographs(results: Results): Part | null {
  const cut = results.photographs.filter(({ strip, slices }) => strip !== null && slices.length > 0).length;
  if (cut === 0) return null;
  return {
    title: 'Photographs',
    cites: [],
    text: (
      <p>
        {counted(cut, 'photograph')} of cores: two marks of known depth on each give one scale and direction
        for the whole picture, by which the core is cut out and straightened and then stretched to in-situ
        depth as the layers are. Perspective and lens are not corrected. No number is computed from them.
      </p>
    ),
  };
}

function correlation({ correlations, horizons }: Results): Part | null {
  if (correlations.length === 0) return null;
  const of = (confidence: string | null): number =>
    correlations.filter((each) => each.confidence === confidence).length;
  const counts = (['certain', 'probable', 'possible'] as const)
    .map((word) => [of(word), word] as const)
    .filter(([count]) => count > 0)
    .map(([count, word]) => `${printed(count)} ${word}`);
  const unsaid = of(null);
  const named = horizons.map(({ horizon }) => horizon);
  return {
    title: 'Correlation',
    cites: ['Smith & Waterman 1980'],
    text: (
      <p>
        Contacts were correlated between holes by a person: {counted(correlations.length, 'correlation')} (
        {[...counts, ...(unsaid > 0 ? [`${printed(unsaid)} not stated`] : [])].join(', ')}).{' '}
        {named.length === 0 ? '' : `Named horizons: ${named.join(', ')}. `}
        For neighbouring holes correlations are proposed by aligning their units with missing layers left out
        (dynamic programming; Smith & Waterman 1980), by sediment, thickness and elevation; a proposal counts
        only once it is accepted. No number of the curve depends on them.
      </p>
    ),
  };
}

function section({ sections }: Results): Part | null {
  const lines = sections.filter(({ bodies, line }) => line !== null && bodies.length > 0);
  if (lines.length === 0) return null;
  const named = lines.map(({ line, holes, is_profiled }) => {
    const ground = is_profiled ? 'ground profiled' : 'ground straight between the holes';
    return `${line}: ${holes.map(({ hole }) => hole).join(', ')}, ${ground}`;
  });
  const off = lines.flatMap(({ holes }) =>
    holes.flatMap(({ hole, offset_m }) => {
      const far = Math.abs(offset_m ?? 0);
      return far < 0.05 ? [] : [`${hole} ${printed(far, 1)} m`];
    }),
  );
  return {
    title: lines.length === 1 ? 'Section' : 'Sections',
    cites: [],
    text: (
      <p>
        Units are filled in between the holes of {counted(lines.length, 'line')} ({named.join('; ')}) along
        accepted correlations. A unit that only one hole has ends half way to the next, or farther where the
        room there would otherwise be filled by units that are thin in both, unless someone said where;
        contacts that are not correlated are drawn as not known, and ground that no hole reached is left
        blank.{off.length === 0 ? '' : ` Set on the line from next to it: ${off.join(', ')}.`} No number
        depends on the drawing.
      </p>
    ),
  };
}

function depths(results: Results): Part | null {
  if (results.holes.length === 0) return null;
  const inString = results.holes.some((hole) => hole.soundings.length > 0 || hole.shortening !== null);
  const isModelled = results.holes.some((hole) => hole.shortening !== null || hole.depth !== null);
  const sounding = used(results, 'sounding_sigma_m', ' m');
  const draws = used(results, 'depth_draws');
  const said = (name: string) => results.settings.find((each) => each.name === name)?.value ?? '';
  const contrast = said('layer_contrast') === '' ? null : `is ${said('layer_contrast')} (sd of the logit)`;
  const passes = said('by_passing') !== 'off';
  const rubs = said('plug_friction') !== 'off';
  return {
    title: 'Depth',
    cites: isModelled ? ['Morton & White 1997'] : [],
    text: (
      <p>
        {inString
          ? 'Penetration is the string from collar to shoe less its stick-up and what the ground lies below the reference. ' +
            'The entered length at a sounding is the plug then in the string plus everything the runs had removed. '
          : ''}
        {isModelled ? (
          <>
            Sediment is shortened on its way into the pipe (Morton & White 1997), so a length in the core is
            not a depth in the ground. Entered length is taken as a random function of penetration that never
            falls, pinned at the soundings with their errors
            {sounding === null ? '' : <> (1 sigma {sounding} where none is stated)</>}; its mean comes from a
            local recovery that changes from the ground downwards, usually rising towards 1, with layers whose
            contrast {contrast ?? 'is learned from the soundings'}
            {passes ? ', with ground that was by-passed' : ''}
            {rubs ? ', and with friction of the plug that starts again after each run' : ''}. Runs, units and
            samples are placed through its inverse{draws === null ? '' : <>, {draws} joint draws a hole</>},
            so that errors of depth are shared within a hole. Where nothing entered, the ground is reported as
            not represented.
          </>
        ) : (
          'Depths are those measured in the hole; no shortening was modelled.'
        )}
      </p>
    ),
  };
}

function heights(results: Results): Part | null {
  const { label, epoch } = results.datum;
  if (results.holes.length === 0 && results.points.length === 0) return null;
  const lean = used(results, 'inclination_percent', ' %');
  return {
    title: 'Height',
    cites: [],
    text: (
      <p>
        Elevations are metres above {label}
        {epoch === null ? '' : ` of the tidal epoch ${epoch}`}: the reference of the hole, less the ground
        below it, less in-situ depth.
        {lean === null ? (
          ''
        ) : (
          <> A hole whose lean was not measured carries {lean} of depth at 2 sigma for it.</>
        )}{' '}
        Errors of bench mark, datum and tide levels stay shared between the points that depend on them.
      </p>
    ),
  };
}

/** The sd of an even range is half of it over √3: nothing else in the results says that a date is one. */
const isEven = ({ method, error, sd_yr }: Results['dates'][number]): boolean =>
  method !== 'radiocarbon' && error > 0 && Math.abs(sd_yr * Math.sqrt(3) - error) < 1e-6 * error;

/** Of an age that was computed. */
const OR_NORMAL = ', or as a normal distribution where a part of its error is shared';

function ages(results: Results): Part | null {
  const { dates } = results;
  if (dates.length === 0) return null;
  const radiocarbon = dates.filter((date) => date.method === 'radiocarbon');
  const others = dates.filter((date) => date.method !== 'radiocarbon' && date.age_from === 'stated').length;
  const computed = dates.filter(({ age_from }) => age_from === 'measurements');
  const luminescence = computed.filter(({ method }) => method === 'luminescence').length;
  const uranium = computed.length - luminescence;
  const densities = dates.filter(({ age_from }) => age_from === 'density').length;
  const curves = Object.entries(CURVE_SOURCES).filter(([name]) =>
    radiocarbon.some((date) => date.curve === name),
  );
  const own = [...new Set(radiocarbon.flatMap(({ curve }) => curve ?? []))].filter(
    (name) => !Object.hasOwn(CURVE_SOURCES, name),
  );
  const between = results.histories.map(({ hole }) => hole);
  const leadRead = results.histories.flatMap(({ hole, profiles }) => (profiles.length > 0 ? [hole] : []));
  const withBeds = results.histories.flatMap(({ hole, beds }) =>
    beds.map(
      ({ id, age_cal_bp }) =>
        `unit ${id} of ${hole} (${years(age_cal_bp.upper95)} to ${years(age_cal_bp.lower95)} cal BP with 95 %)`,
    ),
  );
  const sharing = results.histories.flatMap(({ hole, shared }) =>
    shared.map((error) => sharedErrorInWords(hole, error)),
  );
  const isAfterBomb = curves.some(([, { length }]) => length > 1);
  const offset = radiocarbon.filter((date) => date.delta_r !== 0 || date.delta_r_error !== 0);
  const together = results.groups.filter(({ kind }) => kind === 'dose').map(({ id }) => id);
  const sequences = [...new Set(dates.flatMap(({ sequence }) => sequence ?? []))];
  const groups = new Set(offset.map((date) => date.delta_r_group).filter((group) => group !== null));
  return {
    title: 'Age',
    cites: [
      ...(radiocarbon.length > 0 ? (['Stuiver & Polach 1977'] as const) : []),
      ...curves.flatMap(([, sources]) => sources),
      ...(sequences.length > 0 ? (['Bronk Ramsey et al. 2001'] as const) : []),
      ...(luminescence > 0 ? (['Aitken 1985'] as const) : []),
      ...(uranium > 0 ? (['Cheng et al. 2013', 'Edwards et al. 1987'] as const) : []),
      ...(between.length > 0 ? (['Christen & Pérez 2009'] as const) : []),
    ],
    text: (
      <p>
        {radiocarbon.length === 0 ? (
          ''
        ) : (
          <>
            {counted(radiocarbon.length, 'conventional radiocarbon age')} (Stuiver & Polach 1977){' '}
            {radiocarbon.length === 1 ? 'was' : 'were'} calibrated on{' '}
            {[
              ...curves.map(([name, sources]) => `${curveCalled(name)} (${sources.join(', before 1942 ')})`),
              ...own.map((name) => `${name} (a curve of this campaign, in its table of calibration curves)`),
            ].join(', ')}{' '}
            as full distributions on a yearly grid: normal likelihood, the error of the curve added to the
            laboratory’s, the curve linear between its rows, every calendar year equally likely before.
            {isAfterBomb
              ? ' On a curve of the bomb years all of this was done in F14C, month by month, and summed to calendar years.'
              : ''}{' '}
          </>
        )}
        {offset.length === 0
          ? ''
          : `${counted(offset.length, 'age')} with marine or old carbon had ${offset.length === 1 ? 'its' : 'their'} reservoir offset added to the curve, its error included${
              groups.size > 0 ? ', and shared by ages of one offset group' : ''
            }. `}
        {sequences.length === 0
          ? ''
          : `The ages of ${sequences.join(', ')}, whose distances in years are known, were matched together on the curve, one year free for each sequence, all calendar years equally likely before (Bronk Ramsey et al. 2001). `}
        {others === 0
          ? ''
          : `${counted(others, 'age')} by other methods ${others === 1 ? 'is' : 'are'} used as normal distributions in calendar years${
              dates.some(isEven) ? ', or even ones where only the ends of a range are known' : ''
            }. `}
        {luminescence === 0
          ? ''
          : `${counted(luminescence, 'luminescence age')} ${luminescence === 1 ? 'was' : 'were'} computed as equivalent dose over dose rate (Aitken 1985), each year as probable as the likelihood of dose and rate has it${OR_NORMAL}. `}
        {doseRatesInWords(results.dose_rates)}
        {uranium === 0
          ? ''
          : `${counted(uranium, 'uranium-series age')} ${uranium === 1 ? 'was' : 'were'} computed from activity ratios of a closed system (Edwards et al. 1987) with the decay constants of Cheng et al. 2013, corrected for detritus where its initial thorium is stated${OR_NORMAL}. `}
        {densities === 0
          ? ''
          : `${counted(densities, 'age')} ${densities === 1 ? 'is a table' : 'are tables'} of years and their weights, linear between rows. `}
        {together.length === 0
          ? ''
          : `The systematic error of ages measured together (${together.join(', ')}) is one unknown for all of them in the curve. `}
        Sets are of highest density at 68.3 and 95.4 %. 0 cal BP is 1950 CE.
        {between.length === 0
          ? ''
          : ` Ages between the dates of ${between.join(', ')} follow from all dates of the hole together: ages rise downward, the logarithm of accumulation varies and persists with depth, and each date is out of place with a probability of its own (0.05 beforehand; Christen & Pérez 2009). ${leadRead.length === 0 ? '' : `The activities of lead-210 in ${leadRead.join(', ')} are read with the dates, slice by slice, at a constant supply that is integrated out. `}${withBeds.length === 0 ? '' : `Beds laid down at once take no time: ${withBeds.join(', ')}. `}A unit of known sediment is expected to accumulate as is usual for it, within a factor of ten. ${sharing.length === 0 ? '' : `An error that dates share is one unknown in all holes it is in. ${sharing.join('. ')}. `}They do not enter the curve.`}
      </p>
    ),
  };
}

function throughTime(results: Results): Part | null {
  const { lines_through_time: lines, environments } = results;
  if (lines.length === 0 || environments.length === 0) return null;
  const hasEdge = lines.some(({ edge }) => edge !== null);
  const isAgainstSea = againstTheSea(environments).length > 0;
  return {
    title: 'Environments through time',
    cites: [],
    text: (
      <p>
        What stood at {environments.map(({ hole }) => hole).join(', ')} follows from joint draws of the depths
        of their layers and of their ages: layers of one environment upon each other are one spell, beds laid
        down at once take no time, and time that no layer is of is left open. All ranges are the central 95 %
        of these draws.{' '}
        {hasEdge
          ? 'The edge between environments inside and outside was followed along each line, draw by draw; between the ages at which it passed two neighbouring holes its way is a bridge of gamma increments whose shapes add to 2, so that it does not turn back and at half of the time is anywhere between them. '
          : ''}
        {isAgainstSea
          ? 'The ground is held against the curve of relative sea level with draws of both, paired as they come. '
          : ''}
        {THROUGH_TIME_ASSUMES.join(' ')} No number of the curve depends on them.
      </p>
    ),
  };
}

function lead({ lead_profiles }: Results): Part | null {
  if (lead_profiles.length === 0) return null;
  const [{ half_life_yr }] = lead_profiles as readonly [(typeof lead_profiles)[number]];
  return {
    title: 'Lead-210',
    cites: ['Appleby & Oldfield 1978'],
    text: (
      <>
        <p>
          {counted(lead_profiles.length, 'profile')} of lead-210 {lead_profiles.length === 1 ? 'was' : 'were'}{' '}
          dated by three models, with a half-life of {half_life_yr} yr: constant rate of supply (Appleby &
          Oldfield 1978),
        </p>
        <p className="formula">t = ln(A(0)/A(x))/λ</p>
        <p>
          where A is the unsupported inventory below a depth, constant initial concentration, and constant
          flux and sedimentation fitted to the activities. Errors come from drawing all activities again;
          supported lead-210 and half-life are shared by all slices. Gaps are interpolated, ages without an
          upper bound are not given. No model holds in every core: caesium-137 of the same slices is set
          against each. These ages do not enter the curve.
        </p>
      </>
    ),
  };
}

function points(results: Results): Part | null {
  if (results.points.length === 0) return null;
  const has = (kind: string) => results.points.some((point) => point.kind === kind);
  return {
    title: 'Points',
    cites: [
      ...(has('index') ? (['Shennan 1982', 'van de Plassche 1986'] as const) : []),
      'Hijma et al. 2015',
      'Khan et al. 2019',
      ...(has('terrestrial') || has('marine') ? (['Engelhart & Horton 2012'] as const) : []),
      ...(results.points.some((point) => point.components.some((part) => part.source.includes('Hibbert')))
        ? (['Hibbert et al. 2018'] as const)
        : []),
    ],
    text: (
      <>
        {has('index') ? (
          <>
            <p>
              An index point fixes the sea through its indicative meaning, the stretch of the tide between a
              lower limit L and an upper limit U in which its deposit forms (Shennan 1982; van de Plassche
              1986); A is the elevation of the sample:
            </p>
            <p className="formula">RSL = A − (U + L)/2, &nbsp; indicative range = U − L</p>
          </>
        ) : null}
        {has('terrestrial') || has('marine') ? (
          <p>
            A limiting point only bounds the sea, terrestrial from above and marine from below (Engelhart &
            Horton 2012).
          </p>
        ) : null}
        {results.points.some((point) => point.tidal_range !== null) ? (
          <p>
            The tidal range of the time of a sample is a factor of today’s, interpolated linearly between the
            ages of a table and averaged over the distribution of the age. Tide levels are scaled about mean
            sea level; offsets from them are not. The error of the table is one constant for all points that
            use it.
          </p>
        ) : null}
        <p>
          Errors of points are root-sum-squares of all parts in their declared shapes; points.csv also has
          them as the community protocol counts them (Hijma et al. 2015; Khan et al. 2019). Parts neither
          measured nor declared are filled in from the literature and marked assumed.
        </p>
      </>
    ),
  };
}

function rateInWords(model: RateModel): string {
  const {
    kind,
    changes,
    changes_from_cal_bp: from,
    changes_to_cal_bp: to,
    jump_sd_m,
    slowing_mm_yr_ka,
  } = model;
  const process =
    'a Gaussian process in calendar time with a Matérn-3/2 covariance (Rasmussen & Williams 2006)';
  const jumps = jump_sd_m > 0 ? `, where the level may jump (normal, 1 sd ${printed(jump_sd_m, 1)} m)` : '';
  const range = `${years(from)} and ${years(to)} cal BP, every age as probable${jumps}`;
  const mean =
    slowing_mm_yr_ka > 0
      ? `; its mean was larger a thousand years earlier (half-normal, scale ${printed(slowing_mm_yr_ka, 2)} mm/yr per ka)`
      : '';
  if (kind === 'constant') return `The rate of sea-level change is one constant${mean}`;
  if (kind === 'stepwise')
    return `The rate of sea-level change is constant but for ${counted(changes, 'change')} between ${range}${mean}`;
  const breaks =
    changes > 0
      ? `, which may start afresh at up to ${printed(changes)} ages between ${range}, every number of them as probable`
      : '';
  return `The rate of sea-level change is ${process}${breaks}${mean}`;
}

function curve(results: Results): Part | null {
  const found = curveOf(results);
  if (found === null) return null;
  const { settings, groups } = found;
  const { priors, tie, outliers } = settings;
  return {
    title: 'Curve',
    cites: [
      'Cahill et al. 2015',
      'Hartikainen & Särkkä 2010',
      'Rasmussen & Williams 2006',
      'Vehtari et al. 2021',
    ],
    text: createElement(
      Fragment,
      null,
      <p>
        {rateInWords(settings.rate_model)}, and sea level its integral, with ages uncertain (Cahill et al.
        2015); it is computed in state-space form (Hartikainen & Särkkä 2010).
      </p>,
      <p>
        Priors: mean rate {signed(priors.rate_mean_mm_yr, 1)} mm/yr; sd of the rate half-normal with scale{' '}
        {printed(priors.rate_sd_scale_mm_yr, 1)} mm/yr; correlation length lognormal with median{' '}
        {printed(priors.length_median_ka, 1)} ka and log-sd {printed(priors.length_log_sd, 2)};{' '}
        {tie === null
          ? `no tie at the present, the level in 1950 CE normal with sd ${printed(priors.level_sd_m, 1)} m.`
          : `sea level 0 ± ${printed(tie.sd_m, 2)} m (1 sd) in ${written(tie.year_ce, 1).replace('.0', '')} CE, the middle of the tidal epoch.`}{' '}
        {outliers === null
          ? 'Every date and height is taken as given.'
          : `A date is an outlier with probability ${printed(outliers.age_probability, 2)}, off by exponentials of ${outliers.age_scales_yr.map((scale) => printed(scale, 0)).join(', ')} years, too old in ${printed(100 * outliers.too_old_share, 0)} %; a height with probability ${printed(outliers.height_probability, 2)}, off by ${outliers.height_times.map((times) => printed(times, 0)).join(' or ')} times its error.`}{' '}
        {settings.depth_order
          ? 'Where the depths of two samples of a hole do not overlap, the lower is the older, whatever their dates say.'
          : 'The order of depths in a hole says nothing of the ages.'}{' '}
        {settings.burial_percent === null || found.burials.length === 0
          ? 'No sample is taken as lowered by the burial of sediment below it.'
          : `Samples on compressible sediment lie lower by a share of its thickness, one unknown share a hole, half-normal with scale ${printed(settings.burial_percent, 0)} %.`}{' '}
        They are physical and fixed, not scaled by the data; rates are shown with the scale halved and doubled
        where that was computed.
      </p>,
      gaugesOf(results).length === 0 ? null : (
        <p>
          Annual means of a gauge enter as means of blocks of about {BLOCK_YR} years. Their scatter about a
          smooth sea is first-order autoregressive, its correlation integrated out by restricted likelihood;
          the error of the gauge’s zero is one for all of its blocks.
        </p>
      ),
      <p>
        Every age is unknown within its full calibrated distribution, not a normal stand-in. Indicative ranges
        are uniform, limits one-sided, and{' '}
        {groups.length === 0
          ? 'no error is shared between points'
          : `${counted(groups.length, 'error')} shared between points ${groups.length === 1 ? 'enters as one unknown constant' : 'enter as one unknown constant each'}`}
        : taken as independent they would narrow the band and turn a bias into a rate.{' '}
        {counted(settings.chains, 'chain')} of {printed(settings.draws, 0)} kept draws, seed{' '}
        {printed(settings.seed, 0)}; convergence by rank-normalised R-hat and effective sample size (Vehtari
        et al. 2021). ± is 2 sd of the draws, 95 % their central range.
      </p>,
    ),
  };
}
