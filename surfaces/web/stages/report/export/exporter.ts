/** The screen's side of the export: one worker while the panel is open, looks that follow the choices, one making at a time. */
import type { Results } from '@stillstand/campaign/results';
import type { FigureOptions } from '@stillstand/output/figures';
import { mapShapes } from '../../../map-shapes/index.ts';
import type { Store } from '../../../store/index.ts';
import { markedPhotos } from '../photos.ts';
import { pngOf } from '../picture-file.ts';
import type { PackedFile } from '../protocol.ts';
import type { Format } from './choices.ts';
import type { Answered, Asked, Listed, Shown } from './protocol.ts';

export interface Exporter {
  results(store: Store, results: Results): void;
  show(options: FigureOptions, name: string | null): void;
  make(wanted: Wanted): void;
  end(): void;
}

interface Wanted {
  options: FigureOptions;
  names: readonly string[];
  formats: readonly Format[];
  dots_per_inch: number;
}

export interface Heard {
  shown(figures: readonly Listed[], shown: Shown | null): void;
  progress(words: string): void;
  packed(zip: Blob): void;
  failed(words: string): void;
}

export function exporter(heard: Heard): Exporter {
  const thread = new Worker(new URL('./export.worker.ts', import.meta.url), { type: 'module' });
  const send = (asked: Asked): void => thread.postMessage(asked);
  let turn = 0;
  let dots = 300;
  let isOver = false;
  /** The worker has the results, and the photographs were read. */
  let ready: Promise<void> = Promise.resolve();
  thread.onmessage = ({ data }: MessageEvent<Answered>) => {
    switch (data.kind) {
      case 'shown':
        if (data.turn === turn) heard.shown(data.figures, data.shown);
        return;
      case 'progress':
        heard.progress(`Drawing ${data.done} of ${data.of}`);
        return;
      case 'made':
        drawn(data).catch((error: unknown) =>
          heard.failed(error instanceof Error ? error.message : `${error}`),
        );
        return;
      case 'packed':
        heard.packed(data.zip);
        return;
      case 'failed':
        heard.failed(data.words);
    }
  };
  thread.onerror = (event) => heard.failed(event.message);

  /** Pictures one after another: a page at 600 dots to the inch takes 80 MB while it is drawn. */
  async function drawn({ files, pictures }: Answered & { kind: 'made' }): Promise<void> {
    const all: PackedFile[] = [...files];
    for (const [i, picture] of pictures.entries()) {
      if (isOver) return;
      heard.progress(`Picture ${i + 1} of ${pictures.length}`);
      all.push([`${picture.name}.png`, await pngOf(picture, dots)]);
    }
    send({ kind: 'pack', files: all });
  }

  return {
    results: (store, results) => {
      // One after another: those asked for last are the ones that are drawn.
      ready = ready
        .then(() => Promise.all([markedPhotos(store), mapShapes(store)]))
        .then(([photos, shapes]) => send({ kind: 'results', results, photos, shapes }))
        .catch((error: unknown) => heard.failed(String(error)));
    },
    show: (options, name) => {
      turn += 1;
      const asked = turn;
      void ready.then(() => send({ kind: 'show', turn: asked, options, name }));
    },
    make: ({ options, names, formats, dots_per_inch }) => {
      dots = dots_per_inch;
      const wants = (format: Format): boolean => formats.includes(format);
      void ready.then(() =>
        send({ kind: 'make', options, names, svg: wants('svg'), pdf: wants('pdf'), png: wants('png') }),
      );
    },
    end: () => {
      isOver = true;
      thread.terminate();
    },
  };
}
