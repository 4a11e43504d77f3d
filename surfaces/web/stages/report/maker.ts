/** The screen's side of the report's worker: looks that follow the results, and one making at a time. */
import type { Dating } from '@stillstand/campaign/budget';
import type { CampaignPipe } from '@stillstand/campaign/holes';
import type { Results } from '@stillstand/campaign/results';
import type { MapShapes } from '@stillstand/output/shapes';
import { mapShapes } from '../../map-shapes/index.ts';
import type { Store } from '../../store/index.ts';
import { geopackageOf } from './geopackage-file.ts';
import { markedPhotos } from './photos.ts';
import type { Answered, Asked, Listed, Made, MadeFiles, MadeFrom, PackedFile, Tell } from './protocol.ts';

export interface Maker {
  look(
    store: Store,
    seen: {
      results: Results;
      pipe: CampaignPipe;
      dating: Dating;
      leftOut: readonly string[];
      theme: 'day' | 'night';
    },
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
  const packing = new Map<
    number,
    { done: (zip: Blob) => void; failed: (error: Error) => void; tell: Tell | null }
  >();
  let from: MadeFrom = { package: null, tables: [], files: [] };
  let worker = begin();

  function begin(): Worker {
    const thread = new Worker(new URL('./report.worker.ts', import.meta.url), { type: 'module' });
    thread.onmessage = ({ data }: MessageEvent<Answered>) => {
      if (data.kind === 'packing') packing.get(data.pack)?.tell?.(data.words);
      else if (data.kind === 'packed') {
        packing.get(data.pack)?.done(data.zip);
        packing.delete(data.pack);
      } else if (data.kind === 'not-packed') {
        packing.get(data.pack)?.failed(new Error(data.words));
        packing.delete(data.pack);
      } else if (data.kind === 'made') heard.made(withPackages(data.made, from));
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

  function packedBy(asked: (pack: number) => Asked, tell: Tell | null = null): Promise<Blob> {
    packs += 1;
    const pack = packs;
    return new Promise((done, failed) => {
      packing.set(pack, { done, failed, tell });
      send(asked(pack));
    });
  }

  /** What can be made of a report once it is there, from the campaign it was made of. */
  function withPackages(made: MadeFiles, madeFrom: MadeFrom): Made {
    const { results, arrays } = made;
    const geopackage = (): Promise<Blob> => geopackageOf({ results, arrays });
    return {
      ...made,
      packed: (files) => packedBy((pack) => ({ kind: 'pack', pack, files })),
      geopackage,
      dataPackage: async (photographs, tell) => {
        // A browser that compiles no WebAssembly still packs everything else.
        const parts = { results, arrays, photographs, geopackage: await geopackage().catch(() => null) };
        return await packedBy((pack) => ({ kind: 'package', pack, ...parts, ...madeFrom }), tell);
      },
    };
  }

  function giveUpPacking(words: string): void {
    for (const { failed } of packing.values()) failed(new Error(words));
    packing.clear();
  }

  const send = (asked: Asked): void => worker.postMessage(asked);
  /** Asks once photographs and coasts are read, unless something newer was asked until then. */
  const withFiles = (
    store: Store,
    ask: (files: { photos: readonly PackedFile[]; shapes: MapShapes }) => void,
  ): void => {
    turn += 1;
    const asked = turn;
    Promise.all([markedPhotos(store), mapShapes(store)]).then(
      ([photos, shapes]) => {
        if (asked === turn) ask({ photos, shapes });
      },
      (error: unknown) => heard.failed(String(error)),
    );
  };
  return {
    look: (store, seen) => withFiles(store, (files) => send({ kind: 'look', turn, ...files, ...seen })),
    make: (store, leftOut) => {
      const document = store.asSaved();
      const madeFrom: MadeFrom = {
        package: document.package,
        // The bytes as read are of no use to a computation.
        tables: [...document.tables].map(([name, table]) => [name, { ...table, source: null }]),
        files: [...document.files],
      };
      from = madeFrom;
      withFiles(store, (files) =>
        send({ kind: 'make', turn, found: store.openingProblems, ...files, leftOut, ...madeFrom }),
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
