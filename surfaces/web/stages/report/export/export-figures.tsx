/** Figures for a journal: how they are drawn, which, a look at one in its true size, and one action that packs them. */
import type { Results } from '@stillstand/campaign/results';
import { useEffect, useRef, useState } from 'react';
import { Button, counted, Dialog, download, fileName, Plate } from '../../../parts/index.ts';
import type { Store } from '../../../store/index.ts';
import { AxesFields } from './axes-fields.tsx';
import { type Choices, isTaken, optionsOf, useChoices, withTaken } from './choices.ts';
import { type Exporter, exporter } from './exporter.ts';
import { FormFields } from './form-fields.tsx';
import { Preview } from './preview.tsx';
import type { Listed, Shown } from './protocol.ts';
import './export.css';

export function ExportFigures({
  store,
  results,
  isFinal,
  onClose,
}: {
  store: Store;
  results: Results;
  isFinal: boolean;
  onClose: () => void;
}) {
  const [choices, change] = useChoices(store.id);
  const [figures, setFigures] = useState<readonly Listed[]>([]);
  const [shown, setShown] = useState<Shown | null>(null);
  const [wanted, setWanted] = useState<string | null>(null);
  const [doing, setDoing] = useState<string | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const [isSaved, setSaved] = useState(false);
  const work = useRef<Exporter | null>(null);
  const zipName = `${fileName(results.name)}-figures.zip`;

  useEffect(() => {
    const begun = exporter({
      shown: (listed, one) => {
        setFigures(listed);
        setShown(one);
      },
      progress: setDoing,
      packed: (zip) => {
        download(zip, zipName);
        setDoing(null);
        setSaved(true);
      },
      failed: (words) => {
        setFailure(words);
        setDoing(null);
      },
    });
    work.current = begun;
    return () => {
      work.current = null;
      begun.end();
    };
  }, [zipName]);
  useEffect(() => work.current?.results(store, results), [store, results]);
  const { options, faults } = optionsOf(choices);
  const asked = JSON.stringify(options);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the choices as they are drawn, and the results
  useEffect(() => {
    setSaved(false);
    work.current?.show(options, wanted);
  }, [asked, wanted, results]);

  const names = figures.map(({ name }) => name).filter((name) => isTaken(choices, name));
  const held = heldBy(isFinal, Object.keys(faults).length > 0, choices.formats.length, names.length);
  return (
    <Dialog
      title="Export figures"
      onClose={onClose}
      foot={
        <>
          <p className="quiet" role="status">
            {doing ?? (isSaved ? `Saved as ${zipName}.` : held)}
          </p>
          <Button
            kind="main"
            mark="save"
            disabled={held !== null || doing !== null}
            onClick={() => {
              setFailure(null);
              setSaved(false);
              setDoing('Drawing…');
              work.current?.make({
                options,
                names,
                formats: choices.formats,
                dots_per_inch: Number(choices.dots),
              });
            }}
          >
            Export figures
          </Button>
        </>
      }
    >
      <div className="export-figures">
        <div className="choices">
          <FormFields choices={choices} change={change} fault={faults.typed} />
          <AxesFields choices={choices} change={change} faults={faults} />
          <Taken figures={figures} choices={choices} onChange={change} />
        </div>
        <Preview
          figures={figures}
          shown={shown}
          onChoose={(name) => {
            setWanted(name);
          }}
        />
        {failure === null ? null : (
          <Plate state="danger" word="The figures were not exported">
            <p>{failure}</p>
          </Plate>
        )}
      </div>
    </Dialog>
  );
}

/** Why nothing can be exported now, or nothing. */
function heldBy(isFinal: boolean, isFaulty: boolean, formats: number, figures: number): string | null {
  if (!isFinal) return 'The curve is still being computed. Export the figures when it is final.';
  if (isFaulty) return 'Correct the marked entries first.';
  if (formats === 0) return 'Choose a format.';
  if (figures === 0) return 'Choose a figure.';
  return null;
}

function Taken({
  figures,
  choices,
  onChange,
}: {
  figures: readonly Listed[];
  choices: Choices;
  onChange: (named: Pick<Choices, 'only' | 'leftOut'>) => void;
}) {
  const taken = figures.filter(({ name }) => isTaken(choices, name)).length;
  return (
    <fieldset className="taken">
      <legend>
        {taken} of {counted(figures.length, 'figure')}
      </legend>
      <p className="all">
        <Button kind="bare" onClick={() => onChange({ only: null, leftOut: [] })}>
          Select all figures
        </Button>
        <Button kind="bare" onClick={() => onChange({ only: [], leftOut: [] })}>
          Clear selection
        </Button>
      </p>
      <ul>
        {figures.map(({ name, words }) => (
          <li key={name}>
            <label className="tick" title={`Export ${name}`}>
              <input
                type="checkbox"
                checked={isTaken(choices, name)}
                onChange={({ target }) => onChange(withTaken(choices, name, target.checked))}
              />
              {words}
            </label>
          </li>
        ))}
      </ul>
    </fieldset>
  );
}
