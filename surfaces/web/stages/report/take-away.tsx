/** Everything of a made report that can be taken away, each as a file of an open kind. */
import { zipPacker } from '@stillstand/campaign/document';
import { useState } from 'react';
import { Button, download, fileName, Plate } from '../../parts/index.ts';
import type { Store } from '../../store/index.ts';
import { pngOf } from './picture-file.ts';
import type { Made } from './protocol.ts';

export function TakeAway({
  made,
  store,
  leftOutTables,
  onPrint,
}: {
  made: Made;
  store: Store;
  leftOutTables: readonly string[];
  onPrint: () => void;
}) {
  const [doing, setDoing] = useState<{ what: string; words: string } | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const name = fileName(made.results.name);
  const tables = made.tables.filter(([table]) => !leftOutTables.includes(table));
  const take = (what: string, file: (tell: (words: string) => void) => Promise<Blob>, path: string) => (
    <li key={what}>
      <Button
        mark="save"
        disabled={doing !== null}
        onClick={() => {
          setDoing({ what, words: 'Packing…' });
          setFailure(null);
          file((words) => setDoing({ what, words }))
            .then((blob) => download(blob, path))
            .catch((error: unknown) => setFailure(error instanceof Error ? error.message : String(error)))
            .finally(() => setDoing(null));
        }}
      >
        {doing?.what === what ? doing.words : what}
      </Button>
    </li>
  );
  return (
    <div className="take-away">
      <ul>
        {take('Report, HTML', async () => text(made.html, 'text/html'), `${name}-report.html`)}
        <li>
          <Button mark="note" onClick={onPrint}>
            Print, or save as PDF
          </Button>
        </li>
        {take(
          'Figures, SVG',
          async () => zipped(made.figures.map((f) => [`${f.name}.svg`, bytes(f.svg)])),
          `${name}-figures-svg.zip`,
        )}
        {take('Figures, PNG', async (tell) => zipped(await pictures(made, tell)), `${name}-figures-png.zip`)}
        {take(
          'Tables, CSV',
          async () => zipped(tables.map(([path, csv]) => [path, bytes(csv)])),
          `${name}-tables.zip`,
        )}
        {take(
          'Sea-level table, CSV',
          async () => text(made.tables.find(([table]) => table === 'points.csv')![1], 'text/csv'),
          `${name}-sea-level-points.csv`,
        )}
        {take(
          'Holes and points, GeoJSON',
          async () => text(made.geojson, 'application/geo+json'),
          `${name}.geojson`,
        )}
        {take(
          'Results and draws',
          async () =>
            zipped([
              ['results.json', bytes(made.json)],
              ['results.draws.bin', made.draws],
            ]),
          `${name}-results.zip`,
        )}
        {take('Data package of the campaign', () => store.exportZip(), `${name}.zip`)}
      </ul>
      {failure === null ? null : (
        <Plate state="danger" word="The file was not made">
          <p>{failure}</p>
        </Plate>
      )}
    </div>
  );
}

const bytes = (words: string): Uint8Array => new TextEncoder().encode(words);
const text = (words: string, type: string): Blob => new Blob([words], { type: `${type};charset=utf-8` });

async function pictures(made: Made, tell: (words: string) => void): Promise<[string, Uint8Array][]> {
  const files: [string, Uint8Array][] = [];
  // One after another: a canvas of a page at 300 dots to the inch takes 20 MB.
  for (const [i, figure] of made.figures.entries()) {
    tell(`Drawing ${i + 1} of ${made.figures.length}`);
    files.push([`${figure.name}.png`, new Uint8Array(await (await pngOf(figure)).arrayBuffer())]);
  }
  return files;
}

function zipped(files: readonly (readonly [path: string, content: Uint8Array])[]): Blob {
  const chunks: Uint8Array<ArrayBuffer>[] = [];
  const zip = zipPacker((chunk) => chunks.push(chunk as Uint8Array<ArrayBuffer>));
  for (const [path, content] of files) zip.add(path, content);
  zip.end();
  return new Blob(chunks, { type: 'application/zip' });
}
