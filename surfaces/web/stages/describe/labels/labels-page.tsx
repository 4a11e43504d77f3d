/** Labels of samples or cores on their sheet, as they will print. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Results } from '@stillstand/campaign/results';
import type { Label, Printed, Which } from '@stillstand/output/labels';
import { useEffect, useMemo, useState } from 'react';
import { useComputation } from '../../../compute/index.ts';
import {
  Button,
  counted,
  download,
  Field,
  fileName,
  PaperPage,
  Plate,
  useLoaded,
} from '../../../parts/index.ts';
import './labels-page.css';

type Labels = typeof import('@stillstand/output/labels');
const loadLabels = (): Promise<Labels> => import('@stillstand/output/labels');

/** What was chosen last, on this device. */
const KEPT = 'stillstand.labels';
const USUAL = { sheet: 'a4-3x8', roll: '' };

const kept = (): typeof USUAL => {
  try {
    const { sheet, roll }: Record<string, unknown> = JSON.parse(localStorage.getItem(KEPT) ?? '{}');
    return typeof sheet === 'string' && typeof roll === 'string' ? { sheet, roll } : USUAL;
  } catch {
    return USUAL;
  }
};

const WHICH_WORDS: Readonly<Record<Which, string>> = {
  samples: 'samples',
  planned: 'planned samples',
  cores: 'cores',
};

/** In the list of sheets: one that is typed. */
const OTHER = 'other';

export function LabelsPage({
  hole,
  which,
  onClose,
}: {
  hole: string | null;
  /** What is asked for first. */
  which: Which;
  onClose: () => void;
}) {
  const rooms = useLoaded(loadLabels);
  const { campaign, results } = useComputation();
  return (
    <div className="labels-page">
      <header>
        <h2>Labels</h2>
        <Button kind="bare" mark="cross" aria-label="Leave the labels" onClick={onClose} />
      </header>
      {rooms === null || campaign === null ? (
        <p role="status">Drawing the labels.</p>
      ) : (
        <Choices labels={rooms} campaign={campaign} results={results} hole={hole} which={which} />
      )}
    </div>
  );
}

function Choices({
  labels: room,
  campaign,
  results,
  hole: first,
  which: asked,
}: {
  labels: Labels;
  campaign: Campaign;
  results: Results | null;
  hole: string | null;
  which: Which;
}) {
  const [which, setWhich] = useState(asked);
  const [hole, setHole] = useState(first ?? '');
  const [choice, setChoice] = useState(kept);
  const [skipped, setSkipped] = useState('0');
  const keep = (next: typeof USUAL): void => {
    setChoice(next);
    try {
      localStorage.setItem(KEPT, JSON.stringify(next));
    } catch {
      // A device that keeps nothing asks again.
    }
  };
  const isTyped = choice.sheet === OTHER;
  const wanted = isTyped ? choice.roll : choice.sheet;
  const sheet = useMemo(() => room.sheetNamed(wanted), [room, wanted]);
  const places = sheet === null ? 1 : sheet.columns * sheet.rows;
  const skip = Number(skipped);
  const isSkipFine = Number.isInteger(skip) && skip >= 0 && skip < places;
  const made: Label[] = useMemo(
    () => room.labelsOf(campaign, results, which, hole === '' ? null : hole),
    [room, campaign, results, which, hole],
  );
  const page: Printed | null = useMemo(
    () => (sheet === null ? null : room.labelsHtml(made, sheet, { skip: isSkipFine ? skip : 0 })),
    [room, made, sheet, skip, isSkipFine],
  );
  usePaperSize(sheet === null ? null : sheet.page);
  const holes = campaign.rows.holes.map((row) => row.hole);
  return (
    <>
      <div className="fields">
        <Field
          name="Labels of"
          help={{
            about: 'Samples, samples that are planned and not taken yet, or the cores of runs and pushes',
          }}
        >
          {(input) => (
            <select {...input} value={which} onChange={(event) => setWhich(event.target.value as Which)}>
              {(['samples', 'planned', 'cores'] as const).map((of) => (
                <option key={of} value={of}>
                  {WHICH_WORDS[of]}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field name="Hole" help={{ about: 'Of one hole, or of all and of the surface' }}>
          {(input) => (
            <select {...input} value={hole} onChange={(event) => setHole(event.target.value)}>
              <option value="">all</option>
              {holes.map((label) => (
                <option key={label}>{label}</option>
              ))}
            </select>
          )}
        </Field>
        <Field
          name="Sheet"
          help={{ about: 'By the size of one label, as the packet of the sheets or the roll states it' }}
        >
          {(input) => (
            <select
              {...input}
              value={choice.sheet}
              onChange={(event) => keep({ ...choice, sheet: event.target.value })}
            >
              {room.LABEL_SHEETS.map(({ name, about }) => (
                <option key={name} value={name}>
                  {about}
                </option>
              ))}
              <option value={OTHER}>another roll</option>
            </select>
          )}
        </Field>
        {isTyped ? (
          <Field
            name="Width × height"
            unit="mm"
            help={{ about: 'Of one label of the roll', range: '62 × 29', taken: '25 × 15 to 300 × 300' }}
            fault={
              sheet === null && choice.roll !== ''
                ? `Found “${choice.roll}”; expected two lengths, 25 × 15 to 300 × 300 mm.`
                : null
            }
          >
            {(input) => (
              <input
                {...input}
                value={choice.roll}
                autoComplete="off"
                onChange={(event) => keep({ ...choice, roll: event.target.value })}
              />
            )}
          </Field>
        ) : null}
        {places === 1 ? null : (
          <Field
            name="Labels used already"
            help={{
              about: 'On the first sheet, from its upper left, row by row',
              taken: `0 to ${places - 1}`,
            }}
            fault={isSkipFine ? null : `Found “${skipped}”; expected 0 to ${places - 1}.`}
          >
            {(input) => (
              <input
                {...input}
                value={skipped}
                inputMode="numeric"
                autoComplete="off"
                onChange={(event) => setSkipped(event.target.value)}
              />
            )}
          </Field>
        )}
      </div>
      {page === null || made.length === 0 ? (
        <p className="quiet">
          {page === null
            ? 'Say how large a label is.'
            : `No ${WHICH_WORDS[which]} ${hole === '' ? 'in this campaign' : `of hole ${hole}`} yet.`}
        </p>
      ) : (
        <>
          {page.tooSmall.length === 0 ? null : (
            <Plate state="caution" word="Too small">
              <p>
                The code or the name of {page.tooSmall.slice(0, 4).join(', ')}
                {page.tooSmall.length > 4 ? ` and ${page.tooSmall.length - 4} more` : ''} is long: a camera
                may not read it. Use a larger label.
              </p>
            </Plate>
          )}
          <p className="acts">
            <Button kind="main" mark="save" onClick={() => print()}>
              Print labels
            </Button>
            <Button
              onClick={() =>
                download(
                  new Blob([page.html], { type: 'text/html;charset=utf-8' }),
                  `${fileName(`labels ${hole || campaign.name}`)}.html`,
                )
              }
            >
              Save as a file
            </Button>
            <span className="quiet">
              {counted(made.length, 'label')}, {counted(page.pages, 'page')}. Print at 100 %, without margins.
            </span>
          </p>
          <div className="labels-paper">
            <PaperPage html={page.html} theme="print" />
          </div>
        </>
      )}
    </>
  );
}

/** The paper of these labels, for as long as they are shown: a page's size is of the document alone. */
function usePaperSize(page: { width_mm: number; height_mm: number } | null): void {
  const [width_mm, height_mm] = [page?.width_mm ?? 0, page?.height_mm ?? 0];
  useEffect(() => {
    if (width_mm === 0) return;
    const paper = new CSSStyleSheet();
    paper.replaceSync(`@page labels{size:${width_mm}mm ${height_mm}mm;margin:0}`);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, paper];
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((other) => other !== paper);
    };
  }, [width_mm, height_mm]);
}
