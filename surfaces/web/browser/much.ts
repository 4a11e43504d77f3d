/** A campaign with much in it, invented: 24 holes with 60 dates, 160 dates of the surface,
 * 200 points at three sites, 100 of the literature. */
import type { CampaignDocument } from '@stillstand/campaign/document';
import { type Cells, documentOf } from './document-of.ts';

const HOLES = 24;
/** Dated samples in the holes, the oldest third of which are no points; the others are of the surface. */
const DATES = 60;
const SAMPLES = 220;
const PUBLISHED = 100;
/** Long, and alike but for their ends. */
const MUCH_SITES = [
  'Outer lagoon and back-barrier marsh, northern transect',
  'Outer lagoon and back-barrier marsh, southern transect',
  'Inner estuary',
] as const;

const two = (n: number): string => String(n).padStart(2, '0');
const each = <T>(n: number, make: (i: number) => T): T[] => Array.from({ length: n }, (_, i) => make(i));
const holeName = (i: number): string => `TS-VC-12-${two(i + 1)}`;
const sampleName = (i: number): string => `TS-VC-12-03${two(Math.floor(i / 2))}-${i % 2 === 0 ? 'A' : 'B'}`;
const siteOf = (i: number): string => MUCH_SITES[i % 3]!;

/** Beyond the years of a curve, about 40,000. */
const isOldest = (i: number): boolean => i < DATES && i % 3 === 2;
/** Measured, years: clusters of age. */
const years = (i: number): number => (isOldest(i) ? 35_600 : [1200, 5400, 7100][i % 3]!) + 7 * i;

/** Sea level, m, so that the points of a cluster agree about it. */
const sea_m = (i: number): number => [-0.4, -3, -6][i % 3]! - (i % 7) * 0.05;

export function muchCampaign(): CampaignDocument {
  const holeOf = (sample: number): number => sample % HOLES;
  const ground_m = (hole: number): number => 1.2 + 0.1 * (hole % 5);
  const tables: Record<string, Cells[]> = {
    settings: Object.entries({
      datum: 'MSL',
      chains: '2',
      draws: '100',
      outliers: 'off',
      seed: '7',
    }).map(([name, value]) => ({ name, value })),
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    sites: MUCH_SITES.map((site) => ({ site, name: `${site}, west coast of the long island` })),
    tide_levels: MUCH_SITES.flatMap((site) => [
      { site, level: 'MHW', datum: 'MSL', elevation_m: '0.8', sigma_m: '0.05' },
      { site, level: 'HAT', datum: 'MSL', elevation_m: '1.4', sigma_m: '0.05' },
    ]),
    holes: each(HOLES, (i) => ({
      hole: holeName(i),
      site: siteOf(i),
      method: 'hand',
      latitude_deg: String(-46.41 + 0.0004 * i),
      longitude_deg: String(-121.31 + 0.0006 * i),
      reference_point: `peg of ${holeName(i)}`,
      reference_elevation_m: ground_m(i).toFixed(2),
      reference_sigma_m: '0.05',
      reference_datum: 'MSL',
      state: 'finished',
    })),
    units: each(HOLES, (hole) =>
      ['fine sand', 'peat', 'silt', 'clay'].map((sediment, unit) => ({
        hole: holeName(hole),
        unit: String(unit + 1),
        depth_basis: 'in_situ',
        top: `${(unit * 1.4 + 0.05 * (hole % 4) * Math.sign(unit)).toFixed(2)} m`,
        bottom: `${((unit + 1) * 1.4 + 0.05 * (hole % 4)).toFixed(2)} m`,
        sediment,
        contact_below: 'sharp',
      })),
    ).flat(),
    samples: each(SAMPLES, (i) =>
      i < DATES
        ? {
            sample: sampleName(i),
            hole: holeName(holeOf(i)),
            depth_basis: 'in_situ',
            top: `${(0.4 + (i % 3) * 1.7).toFixed(2)} m`,
            bottom: `${(0.44 + (i % 3) * 1.7).toFixed(2)} m`,
            material: 'rhizomes',
          }
        : {
            sample: sampleName(i),
            site: siteOf(i),
            depth_basis: 'elevation',
            elevation_m: (sea_m(i) + 1.1).toFixed(2),
            elevation_sigma_m: '0.1',
            elevation_datum: 'MSL',
            material: 'rhizomes',
          },
    ),
    determinations: each(SAMPLES, (i) =>
      i < DATES
        ? {
            lab_code: `INV-20${two(i)}`,
            sample: sampleName(i),
            method: 'radiocarbon',
            value: String(years(i)),
            error: isOldest(i) ? '450' : '30',
            calibration_curve: 'intcal20',
            status: 'accepted',
          }
        : {
            lab_code: `INV-3${String(i).padStart(3, '0')}`,
            sample: sampleName(i),
            method: 'luminescence',
            value: String(years(i)),
            error: '200',
            reference_year: '2020',
            status: 'accepted',
          },
    ),
    // The oldest are beyond the years of a curve and are no points.
    points: each(SAMPLES, (i) => i)
      .filter((i) => !isOldest(i))
      .map((i) => ({
        point: `P-${sampleName(i)}`,
        sample: sampleName(i),
        kind: i < DATES ? 'terrestrial' : 'index',
        lower: 'MHW',
        upper: i < DATES ? '' : 'HAT',
        status: 'accepted',
      })),
    compiled_points: each(PUBLISHED, (i) => ({
      point: `Invented-2001-compilation-entry-${two(Math.floor(i / 2))}-${i % 2 === 0 ? 'A' : 'B'}`,
      site: siteOf(i),
      source: 'Invented 2001',
      kind: 'index',
      rsl_m: (-0.1 * (i % 40)).toFixed(2),
      rsl_2sigma_m: '0.6',
      age_cal_bp: String(200 + 80 * i),
      age_2sigma_yr: '200',
    })),
  };
  return documentOf('Much of everything', tables);
}
