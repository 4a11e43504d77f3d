/** Papers the methods text may cite. Bibliographic details from memory unless docs/methods says a paper was read. */
export const SOURCES = {
  'Cahill et al. 2015': 'Ann. Appl. Stat. 9, 547–571, doi 10.1214/15-AOAS824',
  'Christen & Pérez 2009': 'Radiocarbon 51, 1047–1059',
  'Engelhart & Horton 2012': 'Quat. Sci. Rev. 54, 12–25',
  'Hartikainen & Särkkä 2010': 'IEEE Int. Workshop on Machine Learning for Signal Processing, 379–384',
  'Heaton et al. 2020': 'Radiocarbon 62, 779–820, doi 10.1017/RDC.2020.68',
  'Hibbert et al. 2018': 'Sci. Data 5, 180088, doi 10.1038/sdata.2018.88',
  'Hijma et al. 2015': 'Handbook of Sea-Level Research (Wiley), ch. 34, 536–553',
  'Hogg et al. 2020': 'Radiocarbon 62, 759–778, doi 10.1017/RDC.2020.59',
  'Hua et al. 2022': 'Radiocarbon 64, 723–745, doi 10.1017/RDC.2021.95',
  'Khan et al. 2019': 'Quat. Sci. Rev. 220, 359–371, doi 10.1016/j.quascirev.2019.07.016',
  'Morton & White 1997': 'J. Coastal Res. 13, 761–769',
  'Rasmussen & Williams 2006': 'Gaussian Processes for Machine Learning, MIT Press',
  'Reimer et al. 2020': 'Radiocarbon 62, 725–757, doi 10.1017/RDC.2020.41',
  'Shennan 1982': 'Proc. Geol. Assoc. 93, 53–63',
  'Stuiver & Polach 1977': 'Radiocarbon 19, 355–363, doi 10.1017/S0033822200003672',
  'van de Plassche 1986': 'Sea-level Research: A Manual for the Collection and Evaluation of Data, Geo Books',
  'Vehtari et al. 2021': 'Bayesian Anal. 16, 667–718, doi 10.1214/20-BA1221',
} as const;

export type Source = keyof typeof SOURCES;

/** Whose the calibration curves are, by the names they have in data; a bomb curve's is two papers'. */
export const CURVE_SOURCES: Readonly<Record<string, readonly [Source, ...Source[]]>> = {
  intcal20: ['Reimer et al. 2020'],
  shcal20: ['Hogg et al. 2020'],
  marine20: ['Heaton et al. 2020'],
  bomb21_nh1: ['Hua et al. 2022', 'Reimer et al. 2020'],
  bomb21_nh2: ['Hua et al. 2022', 'Reimer et al. 2020'],
  bomb21_nh3: ['Hua et al. 2022', 'Reimer et al. 2020'],
  bomb21_sh1_2: ['Hua et al. 2022', 'Hogg et al. 2020'],
  bomb21_sh3: ['Hua et al. 2022', 'Hogg et al. 2020'],
};
