/** A campaign as its cells, to be edited cell by cell: what a test of the memo starts from. */
import {
  type CampaignDocument,
  newDocument,
  parseCampaign,
  rowsOf,
  withRows,
} from '@stillstand/campaign/document';
import {
  type Computation,
  computeCampaign,
  curvesNeeded,
  type Memo,
  type Published,
} from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { DEMO_SEED, demoCampaign } from '@stillstand/demo';
import { loadCurves } from '@stillstand/published/curves';
import { DOSE_FACTORS } from '@stillstand/published/dose-factors';

export type Cells = Readonly<Record<string, string>>;
export type CampaignText = Readonly<Record<string, readonly Cells[]>>;

/** Draws enough to differ, few enough to be computed a thousand times. */
const FEW: Cells[] = [
  { name: 'draws', value: '100' },
  { name: 'chains', value: '1' },
  { name: 'depth_draws', value: '100' },
  { name: 'curve_step_yr', value: '1000' },
];

const { files } = demoCampaign(DEMO_SEED, await loadCurves(['shcal20', 'marine20']));

/** The demo campaign with few draws. */
export const demoText: CampaignText = withFewDraws(textOf(openFiles(files).document));

function textOf(document: CampaignDocument): CampaignText {
  return Object.fromEntries([...document.tables.keys()].map((name) => [name, rowsOf(document, name)]));
}

function withFewDraws(text: CampaignText): CampaignText {
  const few = FEW.map((cells, i) => ({ row_id: `few${i}`, ...cells }));
  return { ...text, settings: [...(text['settings'] ?? []), ...few] };
}

/** The same with only these holes, and what belongs to them. */
export function onlyHoles(text: CampaignText, holes: ReadonlySet<string>): CampaignText {
  const of = (table: string) => text[table] ?? [];
  const samples = of('samples').filter(({ hole = '' }) => hole === '' || holes.has(hole));
  const kept = new Set(samples.map(({ sample }) => sample!));
  const points = of('points').filter(({ sample }) => kept.has(sample!));
  const claims = new Set(points.map(({ point }) => point!));
  const belongs = (cells: Cells): boolean =>
    (cells['hole'] ?? '') === ''
      ? cells['hole_a'] === undefined || holes.has(cells['hole_a'])
      : holes.has(cells['hole']!);
  return {
    ...Object.fromEntries(Object.entries(text).map(([table, rows]) => [table, rows.filter(belongs)])),
    samples,
    points,
    determinations: of('determinations').filter(({ sample }) => kept.has(sample!)),
    measurements: of('measurements').filter(({ sample }) => kept.has(sample!)),
    point_errors: of('point_errors').filter(({ point }) => claims.has(point!)),
  };
}

/** Figures every campaign may need, loaded once. */
export const published: Published = {
  curves: await loadCurves(['intcal20', 'shcal20', 'marine20', 'bomb21_nh2', 'bomb21_sh1_2']),
  doseFactors: DOSE_FACTORS,
};

interface Options {
  withCurve: boolean;
  memo?: Memo;
  forgets?: (step: string, input: string) => boolean;
}

export function computed(text: CampaignText, options: Options, figures = published): Computation {
  let document = newDocument('memo');
  for (const [table, rows] of Object.entries(text)) document = withRows(document, table, rows);
  const { campaign, problems } = parseCampaign(document);
  const curves = Object.fromEntries(
    curvesNeeded(campaign).flatMap((name) => (figures.curves[name] ? [[name, figures.curves[name]]] : [])),
  );
  return computeCampaign(campaign, { ...figures, curves }, problems, options);
}

/** Everything a computation tells, the trace node by node: to be compared value by value. */
export function told({ results, trace, curveInput }: Computation): unknown {
  return {
    results,
    curveInput,
    trace: trace.ids().map((id) => trace.node(trace.find(id))),
  };
}

export function edited(text: CampaignText, table: string, index: number, cells: Cells): CampaignText {
  const rows = [...(text[table] ?? [])];
  rows[index] = { ...rows[index], ...cells };
  return { ...text, [table]: rows };
}
