/** `stillstand lead`: ages of a lead-210 profile. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { randomStream } from '@stillstand/science/base';
import {
  calBp,
  decimalYear,
  type Estimate,
  LEAD_MODELS,
  type LeadAges,
  type LeadFault,
  type LeadModel,
  leadAges,
  leadDefaults,
} from '@stillstand/science/lead';
import { type Command, type ExitCode, type Words, WrongUse } from '../command.ts';
import { readLeadTable } from '../lead-table.ts';
import { print, sayJson, sayProblems, sayTable } from '../say.ts';

const { value: HALF_LIFE, sigma: HALF_LIFE_SIGMA } = leadDefaults.half_life_yr;

export const lead: Command = {
  name: 'lead',
  summary: 'Dates the slices of a lead-210 and caesium-137 profile by three models.',
  usage: [
    'lead SLICES.csv --collected 2014-07-01 [--supported 20 --supported-sigma 1] [--below none] [--json]',
  ],
  options: {
    collected: { type: 'string', value: 'DAY', about: 'when the core was taken, YYYY-MM-DD' },
    supported: { type: 'string', value: 'BQ/KG', about: 'supported lead-210 of all slices' },
    'supported-sigma': { type: 'string', value: 'BQ/KG', about: '1 sigma of it; 0 if not given' },
    'half-life': { type: 'string', value: 'YEARS', about: `of lead-210; ${HALF_LIFE} if not given` },
    'half-life-sigma': {
      type: 'string',
      value: 'YEARS',
      about: `1 sigma of it; ${HALF_LIFE_SIGMA} if not given`,
    },
    below: {
      type: 'string',
      value: 'none',
      about: 'take it that no lead-210 lies below the last slice; estimated if not given',
    },
    seed: { type: 'string', value: 'NUMBER', about: 'seed of the random streams; 1 if not given' },
  },
  more: [
    'SLICES.csv has the columns top_cm, bottom_cm (or top_m, bottom_m), density_g_cm3 (dry), total_bq_kg with total_sigma_bq_kg, and, as',
    'there are, supported_bq_kg (radium-226), caesium_bq_kg, each with its sigma, or excess_bq_kg in place of the total; _dpm_g, _mbq_g,',
    '_bq_g, _pci_g for other units; <12 is a limit; id names a slice. Without supported lead-210 the deepest slices give it.',
    'Ages are years before collection with 1 sigma; with --json also the central 95 %. No model is right for every core: hold them against a dated',
    'horizon, such as the caesium peak of 1963. Methods: docs/methods/lead.md.',
  ].join('\n'),
  run,
};

async function run(words: Words): Promise<ExitCode> {
  const [path, ...others] = words.positionals;
  if (path === undefined) throw new WrongUse('Expected a file of slices');
  if (others.length > 0) throw new WrongUse(`One file at a time; found also ${others.join(' ')}`);
  const below = words.text('below') ?? leadDefaults.below;
  if (below !== 'none' && below !== 'estimated')
    throw new WrongUse(`--below: found “${below}”, expected none or estimated`);
  const supported = words.number('supported', { min: 0 });
  const supportedSigma = words.number('supported-sigma', { min: 0 }) ?? 0;
  const half_life_yr = {
    value: words.number('half-life', { above: 0 }) ?? HALF_LIFE,
    sigma: words.number('half-life-sigma', { min: 0 }) ?? HALF_LIFE_SIGMA,
  };
  const seed = words.number('seed', { integer: true }) ?? 1;
  const collected_ce = collectedOn(words.text('collected'));
  const { table, slices } = await readLeadTable(path);
  const ages = leadAges(
    {
      slices,
      supported: supported === undefined ? null : { bq_kg: supported, sigma_bq_kg: supportedSigma },
      collected_ce,
    },
    { ...leadDefaults, below, half_life_yr },
    randomStream(seed),
  );
  if (words.flag('json')) sayJson(plain(ages, collected_ce));
  else sayAges(ages, collected_ce);
  return sayProblems([...table.problems, ...ages.faults.map((fault) => said(table.name, fault))]);
}

function collectedOn(day: string | undefined): number | null {
  if (day === undefined) return null;
  const year = /^\d{4}-\d{2}-\d{2}$/.test(day) ? decimalYear(day) : NaN;
  if (!(year > 1900 && year < 2200))
    throw new WrongUse(`--collected: found “${day}”, expected a day such as 2014-07-01`);
  return year;
}

const said = (table: string, { code, severity, slice, found, expected, fix }: LeadFault): Problem =>
  problem({ severity, code: `lead-${code.replaceAll('_', '-')}`, table, label: slice, found, expected, fix });

/** The draws of a horizon are for whoever computes on. */
function plain({ peak, onset, ...ages }: LeadAges, collected_ce: number | null) {
  const horizon = (of: LeadAges['peak']) => {
    if (of === null) return null;
    const { depth_draws: _, ...rest } = of;
    return rest;
  };
  const { faults: _, ...said } = ages;
  return { collected_ce, ...said, peak: horizon(peak), onset: horizon(onset) };
}

const CALLED: Readonly<Record<LeadModel, string>> = {
  constant_supply: 'constant supply',
  constant_concentration: 'constant concentration',
  constant_flux: 'constant flux',
};

const withSigma = (of: Pick<Estimate, 'value' | 'sigma'> | null, decimals: number): string =>
  of === null ? '–' : `${of.value.toFixed(decimals)} ± ${of.sigma.toFixed(decimals)}`;

function sayAges(ages: LeadAges, collected_ce: number | null): void {
  const { cells, supported, supply, flux, peak, onset, peak_in } = ages;
  if (supported !== null)
    print(
      `Supported lead-210 ${withSigma({ value: supported.bq_kg, sigma: supported.sigma_bq_kg }, 2)} Bq/kg (${FROM[supported.from]})`,
    );
  if (supply !== null)
    print(
      `Unsupported inventory ${withSigma(supply.inventory_bq_m2, 0)} Bq/m², supply ${withSigma(supply.supply_bq_m2_yr, 0)} Bq/m²/yr`,
    );
  if (flux !== null)
    print(
      `Mean accumulation by constant flux ${withSigma(flux.rate_mm_yr, 2)} mm/yr${flux.rate_g_cm2_yr === null ? '' : `, ${withSigma(flux.rate_g_cm2_yr, 4)} g/cm²/yr`}`,
    );
  if (cells.length > 0) {
    print('', 'Years before collection, 1 sigma; base of the slice, of constant concentration its middle');
    sayTable([
      ['slice, m', 'excess, Bq/kg', ...LEAD_MODELS.map((model) => CALLED[model]), 'cal BP (supply)', 'mm/yr'],
      ...cells.map((cell) => {
        const { base } = cell.constant_supply;
        return [
          `${cell.top_m.toFixed(3)}–${cell.bottom_m.toFixed(3)}${cell.is_estimated ? ' (estimated)' : ''}`,
          withSigma(cell.excess_bq_kg, 1),
          withSigma(base, 1),
          withSigma(cell.constant_concentration.middle, 1),
          withSigma(cell.constant_flux.base, 1),
          base === null || collected_ce === null
            ? '–'
            : calBp(base.value, collected_ce).toFixed(1).replace('-', '−'),
          withSigma(cell.rate_mm_yr, 2),
        ];
      }),
    ]);
  }
  if (peak !== null) {
    print('', `Caesium-137 peak (${peak.year_ce}) at ${withSigma(peak.depth_m, 3)} m`);
    for (const model of LEAD_MODELS) {
      const at = peak_in[model];
      if (at !== null)
        print(
          `  by ${CALLED[model]} ${withSigma(at.year_ce, 0)} CE, ${at.difference_sigmas.toFixed(1).replace('-', '−')} sigma from it`,
        );
    }
  }
  if (onset !== null) print(`Caesium-137 onset (${onset.year_ce}) at ${withSigma(onset.depth_m, 3)} m`);
}

const FROM = {
  stated: 'as stated',
  each_slice: 'mean of the slices, each used with its own',
  tail: 'from the deepest slices',
} as const;
