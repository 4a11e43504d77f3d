/** The screen's side of the report's worker: looks that follow the results, and one making at a time. */
import type { CampaignPipe } from '@stillstand/campaign/holes';
import type { Results } from '@stillstand/campaign/results';
import type { Store } from '../../store/index.ts';
import { markedPhotos } from './photos.ts';
import type { Answered, Asked, Listed, Made, PackedFile, Photos } from './protocol.ts';

export interface Maker {
  look(
    store: Store,
    seen: { results: Results; pipe: CampaignPipe; leftOut: readonly string[]; theme: 'day' | 'night' },
  ): void;
  make(store: Store, leftOut: readonly string[]): void;
  /** Gives up what is being made. */
  stop(): void;
  end(): void;
}

export interface Heard {
  looked(html: string, figures: Listed[]): void;
  progress(share: number): void;
  made(made: Made): void;
  failed(words: string): void;
}

export function maker(heard: Heard): Maker {
  let turn = 0;
  let packs = 0;
  const packing = new Map<number, { done: (zip: Blob) => void; failed: (error: Error) => void }>();
  let worker = begin();

  function begin(): Worker {
    const thread = new Worker(new URL('./report.worker.ts', import.meta.url), { type: 'module' });
    thread.onmessage = ({ data }: MessageEvent<Answered>) => {
      if (data.kind === 'packed') {
        packing.get(data.pack)?.done(data.zip);
        packing.delete(data.pack);
      } else if (data.kind === 'made') heard.made({ ...data.made, packed });
      else if (data.turn !== turn) return;
      else if (data.kind === 'looked') heard.looked(data.html, data.figures);
      else heard.progress(data.of === 0 ? 0 : data.done / data.of);
    };
    thread.onerror = (event) => {
      giveUpPacking(event.message);
      heard.failed(event.message);
    };
    return thread;
  }

  function packed(files: readonly PackedFile[]): Promise<Blob> {
    packs += 1;
    const pack = packs;
    return new Promise((done, failed) => {
      packing.set(pack, { done, failed });
      send({ kind: 'pack', pack, files });
    });
  }

  function giveUpPacking(words: string): void {
    for (const { failed } of packing.values()) failed(new Error(words));
    packing.clear();
  }

  const send = (asked: Asked): void => worker.postMessage(asked);
  /** Asks once the photographs are read, unless something newer was asked until then. */
  const withPhotos = (store: Store, ask: (photos: Photos) => void): void => {
    turn += 1;
    const asked = turn;
    markedPhotos(store).then(
      (photos) => {
        if (asked === turn) ask(photos);
      },
      (error: unknown) => heard.failed(String(error)),
    );
  };
  return {
    look: (store, seen) => withPhotos(store, (photos) => send({ kind: 'look', turn, photos, ...seen })),
    make: (store, leftOut) => {
      const document = store.document();
      withPhotos(store, (photos) =>
        send({
          kind: 'make',
          turn,
          package: document.package,
          // The bytes as read are of no use to a computation.
          tables: [...document.tables].map(([name, table]) => [name, { ...table, source: null }]),
          found: store.openingProblems,
          photos,
          leftOut,
        }),
      );
    },
    stop: () => {
      turn += 1;
      worker.terminate();
      giveUpPacking('The work was stopped.');
      worker = begin();
    },
    end: () => worker.terminate(),
  };
}
