/** The section of a line: contacts picked and correlated, and how they run between the holes edited. */
import type { Results } from '@stillstand/campaign/results';
import { whyNoFence } from '@stillstand/output/figures';
import { useId, useState } from 'react';
import { Button, Mark, Table, useWidth } from '../../parts/index.ts';
import { useTheme } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { HorizonsTable } from './horizons-table.tsx';
import { ChosenProposal, ProposalsTable } from './proposals.tsx';
import { decision, type Proposed, proposedOf } from './proposed.ts';
import { ContactPanel } from './section/contact-panel.tsx';
import { CONFIDENCE, nameOf } from './section/contacts.ts';
import { FenceView } from './section/fence-view.tsx';
import { FENCE, LineChoice } from './section/line-choice.tsx';
import { useContacts } from './section/use-contacts.ts';
import { SectionDrawing } from './section-drawing.tsx';
import { isBetween, isSame, type Place, type Tied, tiesOf } from './tie.ts';
import './section-page.css';

export function SectionPage({ results, onHole }: { results: Results; onHole: (hole: string) => void }) {
  const store = useStore();
  const { theme } = useTheme();
  const [box, width] = useWidth(0);
  const [picked, setPicked] = useState<Place | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const [showsDoubtful, setShowsDoubtful] = useState(false);
  const horizonsId = useId();
  const [line, setLine] = useState<string | null>(null);
  const section = results.sections.find((each) => each.line === line) ?? results.sections[0] ?? null;
  const isFence = line === FENCE && whyNoFence(results) === null;
  const edited = useContacts(results, section, setSaid);
  const ties = tiesOf(store.rows('correlations'), store.rows('units'), results);
  const all = proposedOf(results, ties);
  const proposed = all.filter(({ result }) => result.is_clear || showsDoubtful);
  const chosenProposal = proposed.find(({ id }) => id === chosen) ?? null;
  const decide = (one: Proposed, isAccepted: boolean): void => {
    if (store.readOnly) return;
    // One after the other down the section: the next is chosen.
    const next = proposed[proposed.indexOf(one) + 1] ?? proposed.find((other) => other !== one) ?? null;
    // What was refused once, or stands as proposed in the table, is decided again in its own row.
    const before = ties.find((tie) => isBetween(tie, one.a, one.b));
    const cells = decision(one, isAccepted);
    if (before === undefined) store.addRow('correlations', cells);
    else store.editRow('correlations', before.row.row_id, { status: cells['status']! });
    setChosen(next?.id ?? null);
    setSaid(
      `${isAccepted ? 'Accepted' : 'Refused'}: base of ${one.a.hole} unit ${one.a.label} and of ${one.b.hole} unit ${one.b.label}. Undo takes it back.`,
    );
  };
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
      if (before.isAccepted) setSaid('These two are correlated already.');
      else if (store.editRow('correlations', before.row.row_id, { status: 'accepted' }))
        setSaid('Correlated: it is no longer refused.');
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
      <LineChoice results={results} section={section} isFence={isFence} onLine={setLine} onSaid={setSaid} />
      <p className="drawing-notes">
        Choose a contact to edit it. Pick the base of a unit, then one in another hole, to correlate them.
        Faint, with its margin: proposed. Dotted and ?: not known. Dashed, zero: {results.datum.label}.
      </p>
      <div className={isFence ? 'section-main whole' : 'section-main'}>
        <div>
          <div ref={box} className="drawing-place">
            {width === 0 ? null : isFence ? (
              <FenceView results={results} width={width} theme={theme} />
            ) : (
              <SectionDrawing
                results={results}
                section={section}
                ties={ties}
                proposed={proposed}
                picked={picked}
                chosen={chosen}
                contacts={edited.contacts}
                contact={edited.chosen}
                draft={edited.draft}
                width={width}
                theme={theme}
                isReadOnly={store.readOnly}
                onPick={pick}
                onChoose={setChosen}
                onContact={edited.choose}
                onGrip={edited.grip}
                onHole={onHole}
                onEscape={() => {
                  setPicked(null);
                  edited.choose('');
                }}
              />
            )}
          </div>
          <p className="describe-said" role="status">
            {said}
          </p>
        </div>
        <div className="section-side">
          <label className="contact-choice" hidden={isFence}>
            Contact{' '}
            <select
              aria-label="Contact"
              title="The contact to be edited: the base of a layer, from one hole towards the next"
              value={edited.chosen?.id ?? ''}
              onChange={(event) => edited.choose(event.target.value)}
            >
              <option value="">none chosen</option>
              {edited.contacts.map((each) => (
                <option key={each.id} value={each.id}>
                  {nameOf(each)}
                </option>
              ))}
            </select>
          </label>
          {edited.chosen === null || isFence ? null : (
            <ContactPanel
              each={edited.chosen}
              results={results}
              lift_m={edited.draft.lift_m}
              isReadOnly={store.readOnly}
              onEnding={edited.setEnding}
              onConfidence={edited.setConfidence}
              onBreak={edited.breakCorrelation}
              onUnsay={edited.clear}
            />
          )}
          {chosenProposal === null || store.readOnly ? null : (
            <ChosenProposal proposed={chosenProposal} left={proposed.length} onDecide={decide} />
          )}
        </div>
      </div>
      <Table
        caption="Correlations between holes"
        columns={[
          { name: 'base of' },
          { name: 'and of' },
          { name: 'confidence' },
          { name: 'horizon' },
          { name: <span className="unseen">delete</span> },
        ]}
      >
        {ties.length === 0 ? (
          <tr>
            <td colSpan={5} className="quiet">
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
              {!tie.isAccepted ? (
                tie.isRefused ? (
                  'refused'
                ) : (
                  'proposed'
                )
              ) : (
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
              )}
            </td>
            <td>
              {!tie.isAccepted ? null : (
                <HorizonName
                  key={tie.horizon}
                  tie={tie}
                  list={horizonsId}
                  disabled={store.readOnly}
                  onCommit={(horizon) => store.editRow('correlations', tie.row.row_id, { horizon })}
                />
              )}
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
      <datalist id={horizonsId}>
        {[...new Set(ties.map(({ horizon }) => horizon))]
          .filter((name) => name !== '')
          .map((name) => (
            <option key={name} value={name} />
          ))}
      </datalist>
      <HorizonsTable results={results} />
      <ProposalsTable
        proposed={proposed}
        chosen={chosen}
        doubtful={all.filter(({ result }) => !result.is_clear).length}
        showsDoubtful={showsDoubtful}
        isReadOnly={store.readOnly}
        onShowDoubtful={setShowsDoubtful}
        onChoose={setChosen}
        onDecide={decide}
      />
    </div>
  );
}

/** The name of the horizon that a correlation belongs to: written when the field is left. */
function HorizonName({
  tie,
  list,
  disabled,
  onCommit,
}: {
  tie: Tied;
  list: string;
  disabled: boolean;
  onCommit: (name: string) => void;
}) {
  const commit = (typed: string): void => {
    if (typed.trim() !== tie.horizon) onCommit(typed.trim());
  };
  return (
    <input
      type="text"
      className="horizon-name"
      title="Name of the layer that both bases bound, such as lower peat; correlations of one name make one horizon"
      list={list}
      defaultValue={tie.horizon}
      disabled={disabled}
      aria-label={`Horizon of the correlation ${tie.a.hole} ${tie.a.label} to ${tie.b.hole} ${tie.b.label}`}
      onBlur={(event) => commit(event.target.value)}
      onKeyDown={(event) => {
        if (event.key === 'Enter') event.currentTarget.blur();
      }}
    />
  );
}
