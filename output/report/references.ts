/** Papers the methods text may cite. Bibliographic details from memory unless docs/methods says a paper was read. */

interface Reference {
  kind: 'article' | 'chapter' | 'proceedings' | 'book';
  /** "Family, I. I."; the last may be "others". */
  authors: readonly string[];
  /** They edited it. */
  isEdited?: true;
  year: number;
  title: string;
  /** Journal, book or proceedings, as the report writes it; of a book its publisher. */
  in: string;
  volume?: string;
  chapter?: string;
  /** Or the number of the article. */
  pages?: string;
  doi?: string;
}

export const REFERENCES = {
  'Aitken 1985': {
    kind: 'book',
    authors: ['Aitken, M. J.'],
    year: 1985,
    title: 'Thermoluminescence Dating',
    in: 'Academic Press',
  },
  'Appleby & Oldfield 1978': {
    kind: 'article',
    authors: ['Appleby, P. G.', 'Oldfield, F.'],
    year: 1978,
    title:
      'The calculation of lead-210 dates assuming a constant rate of supply of unsupported 210Pb to the sediment',
    in: 'Catena',
    volume: '5',
    pages: '1–8',
    doi: '10.1016/S0341-8162(78)80002-2',
  },
  'Bronk Ramsey et al. 2001': {
    kind: 'article',
    authors: ['Bronk Ramsey, C.', 'van der Plicht, J.', 'Weninger, B.'],
    year: 2001,
    title: '‘Wiggle matching’ radiocarbon dates',
    in: 'Radiocarbon',
    volume: '43',
    pages: '381–389',
  },
  'Cahill et al. 2015': {
    kind: 'article',
    authors: ['Cahill, N.', 'Kemp, A. C.', 'Horton, B. P.', 'Parnell, A. C.'],
    year: 2015,
    title: 'Modeling sea-level change using errors-in-variables integrated Gaussian processes',
    in: 'Ann. Appl. Stat.',
    volume: '9',
    pages: '547–571',
    doi: '10.1214/15-AOAS824',
  },
  'Cheng et al. 2013': {
    kind: 'article',
    authors: ['Cheng, H.', 'Edwards, R. L.', 'Shen, C.-C.', 'others'],
    year: 2013,
    title:
      'Improvements in 230Th dating, 230Th and 234U half-life values, and U–Th isotopic measurements by multi-collector inductively coupled plasma mass spectrometry',
    in: 'Earth Planet. Sci. Lett.',
    volume: '371–372',
    pages: '82–91',
  },
  'Christen & Pérez 2009': {
    kind: 'article',
    authors: ['Christen, J. A.', 'Pérez, S.'],
    year: 2009,
    title: 'A new robust statistical model for radiocarbon data',
    in: 'Radiocarbon',
    volume: '51',
    pages: '1047–1059',
  },
  'Edwards et al. 1987': {
    kind: 'article',
    authors: ['Edwards, R. L.', 'Chen, J. H.', 'Wasserburg, G. J.'],
    year: 1987,
    title:
      '238U–234U–230Th–232Th systematics and the precise measurement of time over the past 500,000 years',
    in: 'Earth Planet. Sci. Lett.',
    volume: '81',
    pages: '175–192',
  },
  'Engelhart & Horton 2012': {
    kind: 'article',
    authors: ['Engelhart, S. E.', 'Horton, B. P.'],
    year: 2012,
    title: 'Holocene sea level database for the Atlantic coast of the United States',
    in: 'Quat. Sci. Rev.',
    volume: '54',
    pages: '12–25',
  },
  'Folk 1954': {
    kind: 'article',
    authors: ['Folk, R. L.'],
    year: 1954,
    title: 'The distinction between grain size and mineral composition in sedimentary-rock nomenclature',
    in: 'J. Geology',
    volume: '62',
    pages: '344–359',
    doi: '10.1086/626171',
  },
  'Folk & Ward 1957': {
    kind: 'article',
    authors: ['Folk, R. L.', 'Ward, W. C.'],
    year: 1957,
    title: 'Brazos River bar: a study in the significance of grain size parameters',
    in: 'J. Sed. Petrology',
    volume: '27',
    pages: '3–26',
  },
  'Hartikainen & Särkkä 2010': {
    kind: 'proceedings',
    authors: ['Hartikainen, J.', 'Särkkä, S.'],
    year: 2010,
    title: 'Kalman filtering and smoothing solutions to temporal Gaussian process regression models',
    in: 'IEEE Int. Workshop on Machine Learning for Signal Processing',
    pages: '379–384',
  },
  'Heaton et al. 2020': {
    kind: 'article',
    authors: ['Heaton, T. J.', 'others'],
    year: 2020,
    title: 'Marine20 — the marine radiocarbon age calibration curve (0–55,000 cal BP)',
    in: 'Radiocarbon',
    volume: '62',
    pages: '779–820',
    doi: '10.1017/RDC.2020.68',
  },
  'Hibbert et al. 2018': {
    kind: 'article',
    authors: ['Hibbert, F. D.', 'Williams, F. H.', 'Fallon, S. J.', 'Rohling, E. J.'],
    year: 2018,
    title:
      'A database of biological and geomorphological sea-level markers from the Last Glacial Maximum to present',
    in: 'Sci. Data',
    volume: '5',
    pages: '180088',
    doi: '10.1038/sdata.2018.88',
  },
  'Hijma et al. 2015': {
    kind: 'chapter',
    authors: ['Hijma, M. P.', 'others'],
    year: 2015,
    title: 'A protocol for a geological sea-level database',
    in: 'Handbook of Sea-Level Research (Wiley)',
    chapter: '34',
    pages: '536–553',
  },
  'Hogg et al. 2020': {
    kind: 'article',
    authors: ['Hogg, A. G.', 'others'],
    year: 2020,
    title: 'SHCal20 Southern Hemisphere calibration, 0–55,000 years cal BP',
    in: 'Radiocarbon',
    volume: '62',
    pages: '759–778',
    doi: '10.1017/RDC.2020.59',
  },
  'Hua et al. 2022': {
    kind: 'article',
    authors: ['Hua, Q.', 'others'],
    year: 2022,
    title: 'Atmospheric radiocarbon for the period 1950–2019',
    in: 'Radiocarbon',
    volume: '64',
    pages: '723–745',
    doi: '10.1017/RDC.2021.95',
  },
  'Khan et al. 2019': {
    kind: 'article',
    authors: ['Khan, N. S.', 'others'],
    year: 2019,
    title: 'Inception of a global atlas of sea levels since the Last Glacial Maximum',
    in: 'Quat. Sci. Rev.',
    volume: '220',
    pages: '359–371',
    doi: '10.1016/j.quascirev.2019.07.016',
  },
  'Morton & White 1997': {
    kind: 'article',
    authors: ['Morton, R. A.', 'White, W. A.'],
    year: 1997,
    title: 'Characteristics of and corrections for core shortening in unconsolidated sediments',
    in: 'J. Coastal Res.',
    volume: '13',
    pages: '761–769',
  },
  'Rasmussen & Williams 2006': {
    kind: 'book',
    authors: ['Rasmussen, C. E.', 'Williams, C. K. I.'],
    year: 2006,
    title: 'Gaussian Processes for Machine Learning',
    in: 'MIT Press',
  },
  'Reimer et al. 2020': {
    kind: 'article',
    authors: ['Reimer, P. J.', 'others'],
    year: 2020,
    title: 'The IntCal20 Northern Hemisphere radiocarbon age calibration curve (0–55 cal kBP)',
    in: 'Radiocarbon',
    volume: '62',
    pages: '725–757',
    doi: '10.1017/RDC.2020.41',
  },
  'Shennan 1982': {
    kind: 'article',
    authors: ['Shennan, I.'],
    year: 1982,
    title: 'Interpretation of Flandrian sea-level data from the Fenland, England',
    in: 'Proc. Geol. Assoc.',
    volume: '93',
    pages: '53–63',
  },
  'Smith & Waterman 1980': {
    kind: 'article',
    authors: ['Smith, T. F.', 'Waterman, M. S.'],
    year: 1980,
    title: 'New stratigraphic correlation techniques',
    in: 'J. Geology',
    volume: '88',
    pages: '451–457',
  },
  'Stuiver & Polach 1977': {
    kind: 'article',
    authors: ['Stuiver, M.', 'Polach, H. A.'],
    year: 1977,
    title: 'Discussion: reporting of 14C data',
    in: 'Radiocarbon',
    volume: '19',
    pages: '355–363',
    doi: '10.1017/S0033822200003672',
  },
  'van de Plassche 1986': {
    kind: 'book',
    authors: ['van de Plassche, O.'],
    isEdited: true,
    year: 1986,
    title: 'Sea-level Research: A Manual for the Collection and Evaluation of Data',
    in: 'Geo Books',
  },
  'Vehtari et al. 2021': {
    kind: 'article',
    authors: ['Vehtari, A.', 'Gelman, A.', 'Simpson, D.', 'Carpenter, B.', 'Bürkner, P.-C.'],
    year: 2021,
    title:
      'Rank-normalization, folding, and localization: an improved R-hat for assessing convergence of MCMC',
    in: 'Bayesian Anal.',
    volume: '16',
    pages: '667–718',
    doi: '10.1214/20-BA1221',
  },
  'Wentworth 1922': {
    kind: 'article',
    authors: ['Wentworth, C. K.'],
    year: 1922,
    title: 'A scale of grade and class terms for clastic sediments',
    in: 'J. Geology',
    volume: '30',
    pages: '377–392',
    doi: '10.1086/622910',
  },
} as const satisfies Record<string, Reference>;

export type Source = keyof typeof REFERENCES;

const referenceOf = (source: Source): Reference => REFERENCES[source];

/** Where it is, behind its authors and year: "Radiocarbon 62, 779–820, doi 10.1017/RDC.2020.68". */
export function whereOf(source: Source): string {
  const { kind, title, in: within, volume, chapter, pages, doi } = referenceOf(source);
  return [
    kind === 'book' ? `${title}, ${within}` : volume === undefined ? within : `${within} ${volume}`,
    ...(chapter === undefined ? [] : [`ch. ${chapter}`]),
    ...(pages === undefined ? [] : [pages]),
    ...(doi === undefined ? [] : [`doi ${doi}`]),
  ].join(', ');
}

/** "Cahill et al. 2015" → "cahill2015". */
const keyOf = (source: Source): string =>
  source
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/ (?:et al\.|& .+?)(?= \d)/, '')
    .replace(/[^a-z0-9]/gi, '')
    .toLowerCase();

const BIBTEX = {
  article: 'article',
  chapter: 'incollection',
  proceedings: 'inproceedings',
  book: 'book',
} as const;

/** BibTeX, UTF-8, an entry for each. */
export const bibtexOf = (sources: readonly Source[]): string =>
  sources
    .map((source) => {
      const {
        kind,
        authors,
        isEdited,
        year,
        title,
        in: within,
        volume,
        chapter,
        pages,
        doi,
      } = referenceOf(source);
      const holder = {
        article: 'journal',
        chapter: 'booktitle',
        proceedings: 'booktitle',
        book: 'publisher',
      };
      const fields: [string, string | undefined][] = [
        [isEdited ? 'editor' : 'author', authors.join(' and ')],
        // Braces keep the capitals of names.
        ['title', `{${title}}`],
        [holder[kind], within],
        ['volume', volume],
        ['chapter', chapter],
        ['pages', pages?.replace('–', '--')],
        ['year', String(year)],
        ['doi', doi],
      ];
      const said = fields.flatMap(([name, text]) => (text === undefined ? [] : [`  ${name} = {${text}}`]));
      return `@${BIBTEX[kind]}{${keyOf(source)},\n${said.join(',\n')}\n}\n`;
    })
    .join('\n');

const RIS = { article: 'JOUR', chapter: 'CHAP', proceedings: 'CPAPER', book: 'BOOK' } as const;

/** RIS, UTF-8, lines ended by CR LF as its readers expect. */
export const risOf = (sources: readonly Source[]): string =>
  sources
    .map((source) => {
      const { kind, authors, isEdited, year, title, in: within, volume, pages, doi } = referenceOf(source);
      const [from, to] = pages?.split('–') ?? [];
      const lines: [string, string | undefined][] = [
        ['TY', RIS[kind]],
        ...authors.map((name): [string, string] =>
          name === 'others' ? ['N1', 'and others'] : [isEdited ? 'ED' : 'AU', name],
        ),
        ['PY', String(year)],
        ['TI', title],
        [kind === 'book' ? 'PB' : 'T2', within],
        ['VL', volume],
        ['SP', from],
        ['EP', to],
        ['DO', doi],
        ['ER', ''],
      ];
      return lines.flatMap(([tag, text]) => (text === undefined ? [] : [`${tag}  - ${text}\r\n`])).join('');
    })
    .join('\r\n');
