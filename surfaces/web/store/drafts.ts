/**
 * Half-filled forms, kept on this device outside the document: what is typed and not recorded outlasts the form, the
 * page and the app. Text only. A device that refuses (private mode, full) has them in this page's memory instead.
 */

/** What was typed in a form. */
export interface KeptDraft {
  /** Cells as typed, of the fields that a hand has touched. */
  values: Readonly<Record<string, string>>;
  units: Readonly<Record<string, string>>;
  /** The field in hand. */
  at: string | null;
  /** When it was last typed in, ISO 8601 with offset. */
  time: string;
  /** Readings of its kind that there were when it was begun. */
  seen: number;
}

/** Whose form: of a hole, and of a reading that it amends or completes, by its row_id; else empty. */
export interface DraftPlace {
  form: string;
  hole: string;
  amends: string;
}

export interface Drafts {
  read(place: DraftPlace): KeptDraft | null;
  keep(place: DraftPlace, draft: KeptDraft): void;
  forget(place: DraftPlace): void;
  /** The form on the screen of a hole: it is opened again with the hole. Null where none is. */
  show(hole: string, place: DraftPlace | null): void;
  shown(hole: string): DraftPlace | null;
  /** The device has them all: nothing is lost with the page. */
  readonly onDevice: boolean;
}

interface Kept {
  drafts: Record<string, KeptDraft>;
  shown: Record<string, DraftPlace>;
}

const keyOf = (campaign: string): string => `stillstand.drafts.${campaign}`;
/** What the device refused, by key. */
const memory = new Map<string, Kept>();

/** The drafts of a campaign; every act reads them anew, as another tab may have written. */
export function draftsOf(campaign: string): Drafts {
  const key = keyOf(campaign);
  const nameOf = ({ form, hole, amends }: DraftPlace): string => JSON.stringify([form, hole, amends]);
  const change = (act: (kept: Kept) => void): void => {
    const kept = load(key);
    act(kept);
    save(key, kept);
  };
  return {
    read: (place) => {
      const draft = load(key).drafts[nameOf(place)];
      return typeof draft?.values === 'object' && typeof draft.units === 'object' ? draft : null;
    },
    keep: (place, draft) =>
      change(({ drafts }) => {
        drafts[nameOf(place)] = draft;
      }),
    forget: (place) =>
      change(({ drafts }) => {
        delete drafts[nameOf(place)];
      }),
    show: (hole, place) =>
      change(({ shown }) => {
        if (place === null) delete shown[hole];
        else shown[hole] = place;
      }),
    shown: (hole) => load(key).shown[hole] ?? null,
    get onDevice() {
      return !memory.has(key);
    },
  };
}

/** With the campaign its drafts go too. */
export function forgetDrafts(campaign: string): void {
  memory.delete(keyOf(campaign));
  try {
    localStorage.removeItem(keyOf(campaign));
  } catch {
    // The device keeps nothing.
  }
}

function load(key: string): Kept {
  const refused = memory.get(key);
  if (refused !== undefined) return refused;
  try {
    const { drafts, shown } = JSON.parse(localStorage.getItem(key) ?? '{}') as Partial<Kept>;
    return { drafts: { ...drafts }, shown: { ...shown } };
  } catch {
    return { drafts: {}, shown: {} };
  }
}

function save(key: string, kept: Kept): void {
  try {
    if (Object.keys(kept.drafts).length === 0) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(kept));
    memory.delete(key);
  } catch {
    memory.set(key, kept);
  }
}
