/** How the program is cited: CITATION.cff in the few words that go with data. */
export const VERSION = '0.1.0';
const TITLE = 'Stillstand: from rig readings to the relative sea-level curve';
const AUTHORS = 'The Stillstand authors';
const LICENCE = 'Apache-2.0';

/** Citation File Format 1.2.0. */
export const citationCff = (): string =>
  [
    'cff-version: 1.2.0',
    'message: If you use Stillstand in published work, please cite it with its version, and cite the papers in references.bib.',
    `title: "${TITLE}"`,
    'type: software',
    'authors:',
    `  - name: ${AUTHORS}`,
    `version: ${VERSION}`,
    `license: ${LICENCE}`,
    '',
  ].join('\n');
