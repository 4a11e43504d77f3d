/**
 * Indicator types and their meaning in tidal terms. Regional practice differs: a modern survey of the user's own coast
 * wins. `status`: `in_dataset` meanings are those used in the dataset named; `from_memory` were set down from memory of
 * the works named and must be checked before they decide anything.
 */

export interface IndicatorType {
  indicator: string;
  kind: 'index' | 'terrestrial' | 'marine';
  /** Tide words ("MHW", "MHWS-0.4"); null where the meaning cannot be said as one level and an offset. */
  lower: string | null;
  upper: string | null;
  /** The meaning as its source says it. */
  reference_water_level: string;
  indicative_range: string;
  source: string;
  status: 'in_dataset' | 'from_memory';
}

const MANN = 'Mann et al. 2019, doi 10.1016/j.quascirev.2019.07.007';

export const indicatorTypes: readonly IndicatorType[] = [
  {
    indicator: 'high salt-marsh peat',
    kind: 'index',
    lower: 'MHW',
    upper: 'HAT',
    reference_water_level: '(HAT+MHW)/2',
    indicative_range: 'HAT-MHW',
    source: 'Engelhart & Horton 2012; Hijma et al. 2015; Khan et al. 2019',
    status: 'from_memory',
  },
  {
    indicator: 'salt-marsh peat, zone unknown',
    kind: 'index',
    lower: 'MTL',
    upper: 'HAT',
    reference_water_level: '(HAT+MTL)/2',
    indicative_range: 'HAT-MTL',
    source: 'Engelhart & Horton 2012; Khan et al. 2019',
    status: 'from_memory',
  },
  {
    indicator: 'low salt-marsh',
    kind: 'index',
    lower: 'MTL',
    upper: 'MHW',
    reference_water_level: '(MHW+MTL)/2',
    indicative_range: 'MHW-MTL',
    source: 'Engelhart & Horton 2012',
    status: 'from_memory',
  },
  {
    indicator: 'mangrove or salt-marsh, tropical',
    kind: 'index',
    lower: 'MTL',
    upper: 'HAT',
    reference_water_level: '(HAT+MTL)/2',
    indicative_range: 'HAT-MTL',
    source: MANN,
    status: 'in_dataset',
  },
  {
    indicator: 'upper mangrove or beach above high water',
    kind: 'index',
    lower: 'MHHW',
    upper: 'HAT',
    reference_water_level: '(HAT+MHHW)/2',
    indicative_range: 'HAT-MHHW',
    source: MANN,
    status: 'in_dataset',
  },
  {
    indicator: 'intertidal mudflat',
    kind: 'index',
    lower: 'LAT',
    upper: 'HAT',
    reference_water_level: '(HAT+LAT)/2',
    indicative_range: 'HAT-LAT',
    source: MANN,
    status: 'in_dataset',
  },
  {
    indicator: 'oyster belt',
    kind: 'index',
    lower: 'LAT',
    upper: 'HAT',
    reference_water_level: '(HAT+LAT)/2',
    indicative_range: 'HAT-LAT',
    source: MANN,
    status: 'in_dataset',
  },
  {
    indicator: 'intertidal bivalve shell',
    kind: 'index',
    lower: 'MLLW',
    upper: 'HAT',
    reference_water_level: '(HAT+MLLW)/2',
    indicative_range: 'HAT-MLLW',
    source: MANN,
    status: 'in_dataset',
  },
  {
    indicator: 'coral microatoll',
    kind: 'index',
    lower: 'LAT',
    upper: 'MLW',
    reference_water_level: '(MLW+LAT)/2',
    indicative_range: 'MLW-LAT',
    source: MANN,
    status: 'in_dataset',
  },
  {
    indicator: 'reef-flat coral',
    kind: 'index',
    lower: 'MLLW',
    upper: 'MLW',
    reference_water_level: '(MLW+MLLW)/2',
    indicative_range: 'MLW-MLLW',
    source: MANN,
    status: 'in_dataset',
  },
  {
    indicator: 'terrestrial limiting (fresh peat, soil, fluvial)',
    kind: 'terrestrial',
    lower: 'MTL',
    upper: null,
    reference_water_level: 'none; RSL below A-MTL',
    indicative_range: 'limiting',
    source: MANN,
    status: 'in_dataset',
  },
  {
    indicator: 'marine limiting (subtidal mud, shell, coral)',
    kind: 'marine',
    lower: null,
    upper: 'MTL',
    reference_water_level: 'none; RSL above A-MTL',
    indicative_range: 'limiting',
    source: MANN,
    status: 'in_dataset',
  },
  {
    indicator: 'beachrock, unspecified cement',
    kind: 'index',
    lower: 'MLW',
    upper: 'MHW',
    reference_water_level: '(MHW+MLW)/2',
    indicative_range: 'MHW-MLW',
    source: 'Mauz et al. 2015 Quat. Geochronol.; Khan et al. 2019',
    status: 'from_memory',
  },
  {
    indicator: 'Phragmites or monocot peat above salt-marsh (regressive contact)',
    kind: 'index',
    lower: null,
    upper: null,
    reference_water_level: '(MHWS+HAT)/2 - 0.2 m',
    indicative_range: '0.4 m',
    source: 'Shennan 1986; Shennan & Horton 2002',
    status: 'from_memory',
  },
  {
    indicator: 'Phragmites or monocot peat below salt-marsh (transgressive contact)',
    kind: 'index',
    lower: 'MHWS-0.4',
    upper: 'MHWS',
    reference_water_level: 'MHWS - 0.2 m',
    indicative_range: '0.4 m',
    source: 'Shennan 1986; Shennan & Horton 2002',
    status: 'from_memory',
  },
  {
    indicator: 'fen wood peat above salt-marsh (regressive contact)',
    kind: 'index',
    lower: null,
    upper: null,
    reference_water_level: '(MHWS+HAT)/2',
    indicative_range: '0.4 m',
    source: 'Shennan 1986; Shennan & Horton 2002',
    status: 'from_memory',
  },
  {
    indicator: 'fen wood peat below salt-marsh (transgressive contact)',
    kind: 'index',
    lower: null,
    upper: null,
    reference_water_level: '(MHWS+HAT)/2 - 0.1 m',
    indicative_range: '0.4 m',
    source: 'Shennan 1986; Shennan & Horton 2002',
    status: 'from_memory',
  },
  {
    indicator: 'basal fen peat, groundwater-fed',
    kind: 'terrestrial',
    lower: null,
    upper: null,
    reference_water_level: 'local water table; MSL to MHW by setting',
    indicative_range: 'limiting unless tied to the tide',
    source: 'van de Plassche 1982; Hijma & Cohen 2010',
    status: 'from_memory',
  },
];
