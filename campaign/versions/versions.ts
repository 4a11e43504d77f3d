/**
 * Documents of older versions are migrated step by step when they are opened; newer ones are opened to be read only.
 * Every step is pure, takes a document of its version to the next, and is exercised by a test.
 */
import {
  type CampaignDocument,
  DOCUMENT_VERSION,
  isJsonObject,
  type Json,
  newPackage,
  readFiles,
  readZip,
  resource,
  tableCalled,
} from '@stillstand/campaign/document';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { isTableName, tableWords } from '@stillstand/campaign/tables';
import { toVersion2 } from './version-2.ts';

export interface VersionStep {
  from: number;
  to: number;
  /** What it changes, for the person whose campaign it is. */
  describe: string;
  apply: (document: CampaignDocument) => CampaignDocument;
}

export interface Opened {
  document: CampaignDocument;
  /** Must not be written back: it holds what this program cannot know. */
  read_only: boolean;
  problems: Problem[];
}

/** In order; each begins where the one before it ends, and the last ends at the version we write. */
export const VERSION_STEPS: readonly VersionStep[] = [
  {
    from: 0,
    to: 1,
    describe: 'datapackage.json states the version of the document and lists every table',
    apply: stateVersionAndTables,
  },
  {
    from: 1,
    to: 2,
    describe:
      'names of tables, columns and words of today; access and reasons of amendments in columns of their own',
    apply: toVersion2,
  },
];

/**
 * Reads the files of a campaign and migrates the document to the version we write. `notFiles` says what stands under a
 * path and is no file.
 */
export function openFiles(
  files: ReadonlyMap<string, Uint8Array>,
  notFiles: ReadonlyMap<string, string> = new Map(),
): Opened {
  return opened(readFiles(files, notFiles));
}

/** The same for a campaign packed as one zip. */
export function openZip(bytes: Uint8Array): Opened {
  return opened(readZip(bytes));
}

function opened(read: { document: CampaignDocument; problems: Problem[] }): Opened {
  const migrated = migrate(read.document);
  return { ...migrated, problems: [...read.problems, ...migrated.problems] };
}

/** Problems name tables as they are called today; who has the old files at hand must know which is meant. */
function underOtherNames(before: CampaignDocument, after: CampaignDocument): Problem[] {
  const renamed = [...before.tables].flatMap(([name, { rows }]) => {
    const now = tableCalled(name);
    return now !== name && rows.length > 0 && after.tables.has(now) ? [{ name, now }] : [];
  });
  if (renamed.length === 0) return [];
  return [
    problem({
      severity: 'note',
      code: 'older-names',
      table: 'datapackage',
      found: `tables under the names of version 1: ${renamed.map(({ name }) => name).join(', ')}`,
      expected: `names of version ${DOCUMENT_VERSION}`,
      fix: `No action needed: they are read as ${renamed.map(({ now }) => (isTableName(now) ? tableWords(now) : now)).join(', ')}.`,
    }),
  ];
}

/** The version a document states; 0 where it states none, null where that is no version. */
export function versionOf(document: CampaignDocument): number | null {
  const { stillstand } = document.package ?? {};
  if (stillstand === undefined) return 0;
  const version = isJsonObject(stillstand) ? (stillstand as { version?: Json }).version : null;
  if (version === undefined) return 0;
  return typeof version === 'number' && Number.isInteger(version) && version >= 0 ? version : null;
}

/** Lifts a document to the version we write; a newer one, or one whose package cannot be read, stays as it is. */
export function migrate(document: CampaignDocument): Opened {
  if (document.package === null && document.source !== null)
    return { document, read_only: true, problems: [] };
  const version = versionOf(document);
  if (version === null || version > DOCUMENT_VERSION) {
    return { document, read_only: true, problems: [tooNew(document, version)] };
  }
  let migrated = document;
  for (const step of VERSION_STEPS) if (step.from >= version) migrated = step.apply(migrated);
  return { document: migrated, read_only: false, problems: underOtherNames(document, migrated) };
}

function stateVersionAndTables(document: CampaignDocument): CampaignDocument {
  if (document.package === null) {
    const described = newPackage('campaign', document.tables);
    return { ...document, package: { ...described, stillstand: { version: 1 } } };
  }
  const { stillstand, resources } = document.package as { stillstand?: Json; resources?: Json };
  const listed = Array.isArray(resources) ? (resources as readonly Json[]) : [];
  const paths = new Set(
    listed.map((entry) => (isJsonObject(entry) ? (entry as { path?: Json }).path : undefined)),
  );
  const unlisted = [...document.tables].filter(([, { path }]) => !paths.has(path));
  return {
    ...document,
    package: {
      ...document.package,
      stillstand: { ...(isJsonObject(stillstand) ? stillstand : {}), version: 1 },
      resources: [...listed, ...unlisted.map(([name, { path }]) => resource(name, path))],
    },
  };
}

function tooNew(document: CampaignDocument, version: number | null): Problem {
  const { stillstand } = document.package ?? {};
  return problem({
    severity: 'error',
    code: version === null ? 'unknown-version' : 'newer-version',
    table: 'datapackage',
    column: 'stillstand.version',
    found: version === null ? JSON.stringify(stillstand) : `version ${version}`,
    expected: `a document of version ${DOCUMENT_VERSION} or older`,
    fix: 'Open it with the newer Stillstand that wrote it. Here it is read as far as it goes, and not written.',
  });
}
