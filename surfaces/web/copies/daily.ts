/**
 * A copy each day of the open campaign: with the first change of a day, and again when the page is hidden or the campaign
 * left with changes since. Why there is none is said, and the next occasion tries again.
 */
import { type Copy, deviceWords, type Store, timeWithOffset } from '../store/index.ts';
import { copiesToRemove, nameFor, type WrittenCopy, withCopy } from './copy-name.ts';
import { askToWrite, type Folder, folderWords, hasFile, mayWrite, writeWhole } from './folder.ts';
import type { Choice, CopyMemory } from './memory.ts';

export interface DailyState {
  choice: Choice;
  isWriting: boolean;
  /** The last copy of this campaign from this device; null before the first. */
  last: WrittenCopy | null;
  /** Why the copy that was due is not there, and what to do. */
  trouble: string | null;
  /** The folder is given by a press. */
  needsPress: boolean;
  /** Where there are no folders: no copy today, and there are changes. */
  isDue: boolean;
}

export interface Daily {
  state(): DailyState;
  subscribe(listener: () => void): () => void;
  choose(choice: Choice): Promise<void>;
  /** From a press: asks for the folder where it must, and writes. */
  writeNow(): Promise<void>;
  /** The person has saved a copy elsewhere by hand. */
  noteSaved(name: string): Promise<void>;
  /** The page is hidden. */
  hidden(): Promise<void>;
  /** The campaign is left, and may be closed at once; resolves when its copy is written or cannot be. */
  leave(): Promise<void>;
}

export interface DailySurroundings {
  memory: CopyMemory;
  now: () => Date;
  /** A file name that every system takes. */
  fileName: (name: string) => string;
  /** Runs `work` while no other window does work of that name. */
  alone: <T>(name: string, work: () => Promise<T>) => Promise<T>;
}

export function dailyCopies(store: Store, { memory, now, fileName, alone }: DailySurroundings): Daily {
  let state: DailyState = {
    choice: { kind: 'off' },
    isWriting: false,
    last: null,
    trouble: null,
    needsPress: false,
    isDue: false,
  };
  const listeners = new Set<() => void>();
  const set = (change: Partial<DailyState>): void => {
    state = { ...state, ...change };
    for (const listener of listeners) listener();
  };
  const clock = (): { day: string; time: string } => {
    const moment = timeWithOffset(now());
    return { day: moment.slice(0, 10), time: moment.slice(11, 16) };
  };

  let seen = store.keptElsewhere().changes;
  /** Changed since the last copy. */
  let isChanged = seen > 0;
  /** The day on which the first change was met with trouble: packing again with each change would be too much. */
  let triedOn: string | null = null;
  let running: Promise<void> | null = null;
  const started = begin();
  const unsubscribe = store.subscribe(look);

  async function begin(): Promise<void> {
    try {
      const choice = await memory.choice();
      set({ choice, last: (await memory.written(store.id)).at(-1) ?? null });
      await lookAtFolder();
      look();
    } catch {
      // A device that keeps no databases has no folder chosen either.
    }
  }

  /** A permission that ended with the last visit is said before anything is due. */
  async function lookAtFolder(): Promise<void> {
    if (state.choice.kind !== 'folder') return;
    const permission = await mayWrite(state.choice.folder);
    if (permission !== 'granted') {
      const refusal = new DOMException('', 'NotAllowedError');
      set({ needsPress: true, trouble: folderWords(refusal, state.choice.folder.name) });
    }
  }

  function look(): void {
    const { changes } = store.keptElsewhere();
    if (changes > seen) isChanged = true;
    seen = changes;
    if (!isChanged || store.readOnly) return;
    const { day } = clock();
    if (state.choice.kind === 'remind') {
      if (state.last?.day !== day && !state.isDue) set({ isDue: true });
    } else if (store.saved !== 'saving' && state.last?.day !== day && triedOn !== day) void write(true);
  }

  /** Everything that is asked of the campaign, at once: it may be closed under what follows. */
  const snapshot = (): Snapshot => {
    let rows = 0;
    for (const table of store.document().tables.values()) rows += table.rows.length;
    const taken = { campaign: fileName(store.name()), rows, files: store.filePaths(), copy: store.pack() };
    // Whoever waits for them hears of it.
    taken.files.catch(() => undefined);
    taken.copy.catch(() => undefined);
    return taken;
  };

  /** `isFirst`: nothing is written where another window has written today's copy. */
  function write(isFirst = false, take = snapshot): Promise<void> {
    const { choice } = state;
    if (choice.kind !== 'folder' || store.readOnly) return Promise.resolve();
    running ??= alone(`stillstand-copy/${store.id}`, () => writeInto(choice.folder, isFirst, take)).finally(
      () => {
        running = null;
      },
    );
    return running;
  }

  async function writeInto(folder: Folder, isFirst: boolean, take: () => Snapshot): Promise<void> {
    const { day, time } = clock();
    triedOn = day;
    const written = await memory.written(store.id).catch(() => []);
    const last = written.at(-1) ?? null;
    if (isFirst && last?.day === day) return set({ last });
    set({ isWriting: true });
    isChanged = false;
    try {
      if ((await mayWrite(folder)) !== 'granted') throw new DOMException('', 'NotAllowedError');
      const { campaign, rows, ...taken } = take();
      const full = { rows, files: (await taken.files).length };
      const { zip, wasKept } = await taken.copy;
      const name = await nameFor(campaign, day, full, written, (file) => hasFile(folder, file));
      await writeWhole(folder, name, zip);
      const copy = { name, day, time, ...full };
      const all = withCopy(written, copy);
      const old = new Set(copiesToRemove(all));
      for (const each of old) await folder.removeEntry(each.name).catch(() => undefined);
      await memory.setWritten(
        store.id,
        all.filter((each) => !old.has(each)),
      );
      await wasKept();
      seen = store.keptElsewhere().changes;
      set({ isWriting: false, last: copy, trouble: null, needsPress: false });
    } catch (error) {
      isChanged = true;
      const needsPress = (error as Error | null)?.name === 'NotAllowedError';
      set({ isWriting: false, needsPress, trouble: folderWords(error, folder.name) });
    }
  }

  const writeChanges = async (): Promise<void> => {
    await started;
    await running;
    if (isChanged) await write();
  };

  return {
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    choose: async (choice) => {
      await started;
      try {
        await memory.choose(choice);
      } catch (error) {
        return set({ trouble: `the choice was not kept: ${deviceWords(error)}` });
      }
      triedOn = null;
      set({ choice, trouble: null, needsPress: false, isDue: false });
      if (choice.kind === 'folder') await write();
      else look();
    },
    writeNow: async () => {
      const { choice } = state;
      if (choice.kind !== 'folder') return;
      // Asked first: the press counts for a moment only.
      await askToWrite(choice.folder).catch(() => 'denied');
      await running;
      await write();
    },
    noteSaved: async (name) => {
      if (state.choice.kind !== 'remind') return;
      const copy = { name, ...clock(), rows: 0, files: 0 };
      isChanged = false;
      seen = store.keptElsewhere().changes;
      await memory.setWritten(store.id, [copy]).catch(() => undefined);
      set({ last: copy, isDue: false });
    },
    hidden: writeChanges,
    leave: async () => {
      unsubscribe();
      listeners.clear();
      if (!isChanged || state.choice.kind !== 'folder' || state.needsPress) return;
      const taken = snapshot();
      await running;
      await write(false, () => taken);
    },
  };
}

interface Snapshot {
  campaign: string;
  rows: number;
  files: Promise<readonly string[]>;
  copy: Promise<Copy>;
}
