/** Everything of a made report that can be taken away, each as a file of an open kind. */
import { capital } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Button, download, fileName, Plate } from '../../parts/index.ts';
import { deviceWords, type Store } from '../../store/index.ts';
import { PhotographChoice, photographs, sizesOf, usePhotographSizes, whyNot } from './photographs.tsx';
import { pngOf } from './picture-file.ts';
import type { Made, PackedFile, Tell } from './protocol.ts';
import './take-away.css';

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
  const [isWithPhotographs, setWithPhotographs] = useState(true);
  const sizes = usePhotographSizes(made.photographs, store);
  const name = fileName(made.name);
  const tables = made.tables.filter(([table]) => !leftOutTables.includes(table));
  const take = (what: string, file: (tell: Tell) => Promise<Blob>, path: string) => (
    <li key={what}>
      <Button
        mark="save"
        disabled={doing !== null}
        onClick={() => {
          setDoing({ what, words: 'Packing…' });
          setFailure(null);
          file((words) => setDoing({ what, words }))
            .then((blob) => download(blob, path))
            .catch((error: unknown) => setFailure(capital(deviceWords(error))))
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
        {take('Report, HTML', async () => made.html, `${name}-report.html`)}
        <li>
          <Button mark="note" onClick={onPrint}>
            Print, or save as PDF
          </Button>
        </li>
        {take(
          'Figures, SVG',
          () => made.packed(made.figures.map((f) => [`${f.name}.svg`, f.svg])),
          `${name}-figures-svg.zip`,
        )}
        {take(
          'Figures, PNG',
          async (tell) => made.packed(await pictures(made, tell)),
          `${name}-figures-png.zip`,
        )}
        {take('Tables, CSV', () => made.packed(tables), `${name}-tables.zip`)}
        {take(
          'Sea-level table, CSV',
          async () => made.tables.find(([table]) => table === 'points.csv')![1],
          `${name}-sea-level-points.csv`,
        )}
        {take('Sea-level table, XLSX', async () => made.workbook, `${name}-sea-level-points.xlsx`)}
        {take('Holes and points, GeoJSON', async () => made.geojson, `${name}.geojson`)}
        {take('Layers and tables, GeoPackage', () => made.geopackage(), `${name}.gpkg`)}
        {take(
          'Results and draws',
          () =>
            made.packed([
              ['results.json', made.results],
              ['results.npz', made.arrays],
            ]),
          `${name}-results.zip`,
        )}
        {made.photographs.length === 0 ? null : (
          <li>
            <PhotographChoice
              named={made.photographs}
              sizes={sizes}
              isIn={isWithPhotographs}
              onChange={setWithPhotographs}
            />
          </li>
        )}
        {take(
          'Data package with results',
          async (tell) => {
            const files = isWithPhotographs ? await photographs(made.photographs, store) : null;
            return made.dataPackage(files !== null && whyNot(sizesOf(files)) === null ? files : null, tell);
          },
          `${name}-data-package.zip`,
        )}
        {take('Data package of the campaign', () => store.exportZip(), `${name}.zip`)}
      </ul>
      <p className="quiet">
        Keep the data package with results of each submission. On the command line,{' '}
        <code>stillstand compare OLD.zip NEW.zip</code> lists what changed since.
      </p>
      {failure === null ? null : (
        <Plate state="danger" word="The file was not made">
          <p>{failure}</p>
        </Plate>
      )}
    </div>
  );
}

async function pictures(made: Made, tell: Tell): Promise<PackedFile[]> {
  const files: PackedFile[] = [];
  // One after another: a canvas of a page at 300 dots to the inch takes 20 MB.
  for (const [i, figure] of made.figures.entries()) {
    tell(`Drawing ${i + 1} of ${made.figures.length}`);
    files.push([`${figure.name}.png`, await pngOf(figure)]);
  }
  return files;
}
