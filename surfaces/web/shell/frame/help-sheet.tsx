/** How the app is used, the keys, and who writes on this device. */
import { useState } from 'react';
import { chooseLanguage, LANGUAGES, type Language, language } from '../../language/index.ts';
import { Field, Sheet } from '../../parts/index.ts';
import { crew, setCrew } from '../../store/index.ts';
import type { Stage } from '../stage.ts';
import './help-sheet.css';

const KEYS: readonly [string, string][] = [
  ['Alt 1 … 7', 'go to a stage'],
  ['Ctrl Z, Ctrl Shift Z', 'undo, redo an interpretation'],
  ['Ctrl S', 'save a copy'],
  ['Alt P', 'list the problems'],
  ['F1', 'this help'],
  ['Tab, Enter, Escape', 'move, press, close'],
];

const DOES: Readonly<Record<Stage['name'], string>> = {
  Plan: 'where to drill, what to carry, what could hurt someone',
  Drill: 'every reading on the rig as it is made',
  Describe: 'units, contacts, photographs, samples',
  Date: 'laboratory results and their calendar ages',
  Points: 'what each dated sample says of the sea',
  Curve: 'sea level and its rate, their sensitivity, and points that disagree',
  Report: 'figures, tables, methods, data package',
};

export function HelpSheet({ stages, onClose }: { stages: readonly Stage[]; onClose: () => void }) {
  const [who, setWho] = useState(crew);
  const change = (part: Partial<typeof who>): void => {
    const next = { ...who, ...part };
    setWho(next);
    setCrew(next);
  };
  return (
    <Sheet title="Help" onClose={onClose}>
      <div className="help-text">
        <h3>The stages</h3>
        <dl>
          {stages.map(({ name }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{DOES[name]}</dd>
            </div>
          ))}
        </dl>
        <h3>How it works</h3>
        <p>
          Readings are never changed: a wrong one is amended by a later one, and both stay. Everything else
          can be edited and undone. What you type is kept as you type it, on this device, at once and without
          network.
        </p>
        <p>
          ± is 2 sd; laboratory results keep the 1 sd they came with. Press any number to see where it comes
          from. The question mark next to a field says what it is, its unit and range.
        </p>
        <h3>Who writes on this device</h3>
        <div className="fields">
          <Field
            name="Initials or role"
            help={{
              about: 'Kept with every reading entered here; a role or initials are enough, no full name',
            }}
          >
            {(input) => (
              <input
                {...input}
                value={who.by}
                autoComplete="off"
                onChange={(event) => change({ by: event.target.value })}
              />
            )}
          </Field>
          <Field
            name="This device"
            help={{ about: 'Kept with every reading entered here, e.g. “rig tablet”' }}
          >
            {(input) => (
              <input
                {...input}
                value={who.device}
                autoComplete="off"
                onChange={(event) => change({ device: event.target.value })}
              />
            )}
          </Field>
        </div>
        <h3>Language · Sprache</h3>
        <div className="fields">
          <Field
            name="On the rig · An der Bohrung"
            help={{
              about:
                'Drill, its forms, the safety questions and the frame. Problems, the other stages, report and tables stay English. The app loads again; half-filled forms are kept',
            }}
          >
            {(input) => (
              <select
                {...input}
                value={language}
                onChange={(event) => chooseLanguage(event.target.value as Language)}
              >
                {Object.entries(LANGUAGES).map(([code, name]) => (
                  <option key={code} value={code} lang={code}>
                    {name}
                  </option>
                ))}
              </select>
            )}
          </Field>
        </div>
        <h3>Keys</h3>
        <dl>
          {KEYS.map(([keys, does]) => (
            <div key={keys}>
              <dt>{keys}</dt>
              <dd>{does}</dd>
            </div>
          ))}
        </dl>
        <h3>Cautions</h3>
        <p>
          Stillstand gives advice only; it does not authorise any operation. Check rated loads with a
          competent person, locate buried and overhead services, follow local codes, permits and the
          equipment’s own manual.
        </p>
      </div>
    </Sheet>
  );
}
