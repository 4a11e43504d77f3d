/** All holes hung at their elevation; two contacts picked one after the other are tied. */
import type { Results } from '@stillstand/campaign/results';
import { useState } from 'react';
import { Button, Mark, Table, useWidth } from '../../parts/index.ts';
import { useTheme } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { SectionDrawing } from './section-drawing.tsx';
import { isBetween, isSame, type Place, type Tied, tiesOf } from './tie.ts';
import './section-page.css';

const CONFIDENCE = ['certain', 'probable', 'possible'] as const;

export function SectionPage({ results, onHole }: { results: Results; onHole: (hole: string) => void }) {
  const store = useStore();
  const { theme } = useTheme();
  const [box, width] = useWidth(0);
  const [picked, setPicked] = useState<Place | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const ties = tiesOf(store.rows('correlations'), store.rows('units'), results);
  const pick = (place: Place): void => {
    if (store.readOnly) return;
    if (picked === null || picked.hole === place.hole) {
      setPicked(picked !== null && isSame(picked, place) ? null : place);
      setSaid(`Base of ${place.hole} unit ${place.label} picked; now pick a contact in another hole.`);
      return;
    }
    const before = ties.find((tie) => isBetween(tie, picked, place));
    setPicked(null);
    if (before !== undefined) {
      setChosen(before.row.row_id);
      setSaid('These two are correlated already.');
      return;
    }
    setChosen(
      store.addRow('correlations', {
        hole_a: picked.hole,
        unit_a: picked.row_id ?? picked.label,
        hole_b: place.hole,
        unit_b: place.row_id ?? place.label,
        confidence: 'probable',
      }),
    );
    setSaid(
      `Correlated: base of ${picked.hole} unit ${picked.label} and of ${place.hole} unit ${place.label}.`,
    );
  };
  const remove = (tie: Tied): void => {
    if (store.removeRow('correlations', tie.row.row_id)) setSaid('Correlation deleted. Undo restores it.');
  };
  return (
    <div className="describe-section">
      <p className="drawing-notes">
        Pick the base of a unit, then one in another hole: they are tied. Dashed, zero: {results.datum.label}.
      </p>
      <div ref={box} className="drawing-place">
        {width === 0 ? null : (
          <SectionDrawing
            results={results}
            ties={ties}
            picked={picked}
            chosen={chosen}
            width={width}
            theme={theme}
            onPick={pick}
            onChoose={setChosen}
            onHole={onHole}
            onEscape={() => setPicked(null)}
          />
        )}
      </div>
      <p className="describe-said" role="status">
        {said}
      </p>
      <Table
        caption="Correlations between holes"
        columns={[
          { name: 'base of' },
          { name: 'and of' },
          { name: 'confidence' },
          { name: <span className="unseen">delete</span> },
        ]}
      >
        {ties.length === 0 ? (
          <tr>
            <td colSpan={4} className="quiet">
              None yet.
            </td>
          </tr>
        ) : null}
        {ties.map((tie) => (
          <tr key={tie.row.row_id} className={tie.row.row_id === chosen ? 'chosen' : undefined}>
            <td>
              {tie.a.hole}, unit {tie.a.label}{' '}
              {tie.a.row_id !== null ? null : <Mark name="close" size={16} label="not found" />}
            </td>
            <td>
              {tie.b.hole}, unit {tie.b.label}{' '}
              {tie.b.row_id !== null ? null : <Mark name="close" size={16} label="not found" />}
            </td>
            <td>
              <select
                title="Certain is drawn whole, probable dashed, possible dotted; nothing is computed from it"
                aria-label={`Confidence of the correlation ${tie.a.hole} ${tie.a.label} to ${tie.b.hole} ${tie.b.label}`}
                value={tie.confidence}
                disabled={store.readOnly}
                onChange={(event) =>
                  store.editRow('correlations', tie.row.row_id, { confidence: event.target.value })
                }
              >
                {[...new Set([...CONFIDENCE, tie.confidence])].map((word) => (
                  <option key={word}>{word}</option>
                ))}
              </select>
            </td>
            <td>
              <Button
                kind="bare"
                mark="remove"
                disabled={store.readOnly}
                aria-label={`Delete the correlation ${tie.a.hole} ${tie.a.label} to ${tie.b.hole} ${tie.b.label}`}
                onClick={() => remove(tie)}
              />
            </td>
          </tr>
        ))}
      </Table>
    </div>
  );
}
