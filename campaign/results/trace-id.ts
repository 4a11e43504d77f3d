/**
 * Names of numbers in the trace. Whoever makes or asks for a number takes its name from here: it is spelled nowhere
 * else. A person may type one (`stillstand trace`), so the spelling is part of what we promise.
 */

/** The name of a node, e.g. `point:P7/rsl`. */
export type TraceId = string & { readonly isTraceId: true };

const id = (text: string): TraceId => text as TraceId;

/** People's labels may hold anything; a slash of theirs is none of ours. */
const label = (text: string): string => text.replaceAll('%', '%25').replaceAll('/', '%2F');

export interface Interval {
  older_cal_bp: number;
  younger_cal_bp: number;
}

export const traceId = {
  /** A table row. */
  row: (table: string, row_id: string) => id(`${table}/${label(row_id)}`),
  /** The settings of a part of the computation; of one hole, as `hole:LABEL`. */
  settings: (of: 'curve' | 'depth' | `hole:${string}`) => id(`settings/${of}`),
  published: (curve: string) => id(`published:${label(curve)}`),

  /** The rows of a campaign's own calibration curve that a date lies on. */
  ownCurve: (curve: string, labCode: string) => id(`calibration curve:${label(curve)}/${label(labCode)}`),

  campaignDatum: id('datum'),
  datum: (datum: string) => id(`datum:${label(datum)}`),
  benchmark: (benchmark: string) => id(`benchmark:${label(benchmark)}`),
  levelBook: (loop: string) => id(`levelling:${label(loop)}`),
  loop: (loop: string) => id(`loop:${label(loop)}`),
  levelled: (point: string) => id(`levelled:${label(point)}`),

  hole: (hole: string) => {
    const at = (what: string) => id(`hole:${label(hole)}/${what}`);
    return {
      reference: at('reference'),
      ground: at('ground'),
      rig: at('rig'),
      depth: at('depth'),
      ageDepth: at('age-depth'),
      string: (seq: number) => at(`string@${seq}`),
      entered: (seq: number) => at(`entered@${seq}`),
      removed: (runs: number) => at(`removed@${runs}`),
    };
  },
  /** Ages against depth of holes whose dates share errors. */
  agesTogether: (holes: readonly string[]) => id(`ages together:${holes.map(label).join('+')}`),
  run: (hole: string, run: string) => id(`run:${label(hole)}/${label(run)}`),
  push: (hole: string, push: string) => id(`push:${label(hole)}/${label(push)}`),
  sample: (sample: string) => ({
    depth: id(`sample:${label(sample)}/depth`),
    elevation: id(`sample:${label(sample)}/elevation`),
  }),
  measurement: (row_id: string) => id(`measurement:${label(row_id)}`),
  /** By the first row of the analysis. */
  grainSize: (row_id: string) => id(`grain size:${label(row_id)}`),
  /** What the weights of a pan give, by the first row of them. */
  weighed: (row_id: string, property: string) => id(`weighed:${label(row_id)}/${label(property)}`),
  /** A contact of a section by its units; null: the line through all holes. */
  contact: (line: string | null, contact: string) =>
    id(`section:${line === null ? 'all holes' : label(line)}/${label(contact)}`),
  /** What stood at a hole against age. */
  environments: (hole: string) => id(`environments:${label(hole)}`),
  /** A section line through time; null: the line through all holes. */
  lineThroughTime: (line: string | null) =>
    id(`line through time:${line === null ? 'all holes' : label(line)}`),
  photograph: (row_id: string) => id(`photograph:${label(row_id)}`),

  date: (labCode: string) => id(`date:${label(labCode)}`),
  /** A member of a sequence by itself, before the others are seen. */
  dateAlone: (labCode: string) => id(`date:${label(labCode)}/alone`),
  sequence: (sequence: string) => id(`sequence:${label(sequence)}`),
  event: (event: string) => id(`event:${label(event)}`),
  /** What the measurements of its sample give. */
  measuredAge: (labCode: string) => id(`date:${label(labCode)}/measured`),
  /** The dose rate that the contents of its sediment give. */
  doseRate: (labCode: string) => id(`date:${label(labCode)}/dose-rate`),
  /** The rows of the age density that a date has. */
  ageDensity: (labCode: string) => id(`date:${label(labCode)}/density`),
  leadProfile: (profile: string) => id(`lead profile:${label(profile)}`),
  pooled: (group: string) => id(`pooled:${label(group)}`),
  /** ΔR of one shell, and of one water. */
  offset: (labCode: string) => id(`offset:${label(labCode)}`),
  reservoir: (group: string) => id(`reservoir:${label(group)}`),

  tide: (site: string, level: string) => id(`tide:${label(site)}/${label(level)}`),
  point: (point: string) => {
    const at = (what: string) => id(`point:${label(point)}/${what}`);
    return {
      rsl: at('rsl'),
      referenceWaterLevel: at('reference water level'),
      tidalRange: at('tidal range'),
      residual: at('residual'),
      ageInCurve: at('age in the curve'),
    };
  },

  publishedPoint: (point: string) => id(`published point:${label(point)}`),

  gaugeZero: (gauge: string) => id(`gauge:${label(gauge)}/zero`),
  /** What of a gauge the levels of a site are computed from. */
  gaugeLevels: (gauge: string, site: string, of: 'constants' | 'readings') =>
    id(`gauge:${label(gauge)}/${of} for ${label(site)}`),
  gaugeMeans: (gauge: string) => id(`gauge:${label(gauge)}/annual means`),

  curve: id('curve/all'),
  pointsUsed: id('points used'),
  ratesCompared: id('rates compared'),
  pointsByInfluence: id('points by influence'),
  level: (age_cal_bp: number) => id(`level:${age_cal_bp}`),
  rate: (age_cal_bp: number) => id(`rate:${age_cal_bp}`),
  interval: ({ older_cal_bp, younger_cal_bp }: Interval) => id(`interval:${older_cal_bp}-${younger_cal_bp}`),
  /** The rate of an interval under another assumption, e.g. `prior halved`. */
  intervalUnder: (interval: Interval, assumption: string) =>
    id(`${traceId.interval(interval)}/${assumption}`),

  /** What lies between the curve and another, or is left without a prediction. */
  beside: (name: string) => {
    const at = (what: string) => id(`other:${label(name)}/${what}`);
    return {
      levels: at('levels'),
      level: (age_cal_bp: number) => at(`level:${age_cal_bp}`),
      interval: ({ older_cal_bp, younger_cal_bp }: Interval) =>
        at(`interval:${older_cal_bp}-${younger_cal_bp}`),
      meanRate: at('mean rate'),
    };
  },

  /** An answer to a question, as the curve writes questions. */
  answer: (question: string) => id(`answer:${question}`),

  /** The same number of another curve than that of the report, by the name of that curve; null: of the report's. */
  ofCurve: (curve: string | null, of: TraceId) => (curve === null ? of : id(`curve:${label(curve)}/${of}`)),

  /** The same where the number is one that a curve has; any other name as it is. */
  seenFrom: (curve: string | null, of: TraceId) => (isOfCurve(of) ? traceId.ofCurve(curve, of) : of),

  /** As a person typed it. */
  typed: (text: string) => id(text.trim().replaceAll('−', '-')),
};

/** Whether each curve has such a number of its own. */
const isOfCurve = (name: TraceId): boolean =>
  /^(interval|level|rate|answer|other):|^(curve\/all|points used|rates compared|points by influence|settings\/curve)$|\/(residual|age in the curve)$/.test(
    name,
  );

/** Which curve such a name belongs to, and the name within it; `curve` is null for that of the report. */
export function curveNamed(name: TraceId): { curve: string | null; of: TraceId } {
  const parts = /^curve:([^/]+)\/(.+)$/.exec(name);
  if (parts === null) return { curve: null, of: name };
  return { curve: parts[1]!.replaceAll('%2F', '/').replaceAll('%25', '%'), of: id(parts[2]!) };
}

/** The question whose answer such a name means; null for another name. */
export const answerOf = (name: TraceId): string | null => /^answer:(.+)$/.exec(name)?.[1] ?? null;

/** The interval that such a name means; null for another name. */
export function intervalOf(name: TraceId): Interval | null {
  const ends = /^interval:(-?[\d.]+)-(-?[\d.]+)$/.exec(name);
  if (ends === null) return null;
  const interval = { older_cal_bp: Number(ends[1]), younger_cal_bp: Number(ends[2]) };
  return interval.older_cal_bp > interval.younger_cal_bp ? interval : null;
}
