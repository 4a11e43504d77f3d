/** The evening's plan at a glance: seven parts, what is missing in each; pressing one opens it first on the page. */
import { Mark, type MarkName } from '../../../parts/index.ts';
import { PART_NAMES, type Part, type PartKey, type PartState } from './part.ts';
import './strip.css';

const MARKS: Readonly<Record<PartState, MarkName>> = {
  done: 'tick',
  caution: 'close',
  open: 'reading',
  stop: 'stop',
};

const STATE_WORDS: Readonly<Record<PartState, string>> = {
  done: 'done',
  caution: 'caution',
  open: 'to do',
  stop: 'stop',
};

export function Strip({
  parts,
  chosen,
  onChoose,
}: {
  parts: readonly Part[];
  chosen: PartKey;
  onChoose: (part: PartKey) => void;
}) {
  return (
    <nav className="plan-strip" aria-label="Parts of the plan">
      {parts.map(({ key, state, says, fact }) => (
        <button
          key={key}
          type="button"
          data-state={state}
          aria-current={key === chosen ? 'true' : undefined}
          onClick={() => onChoose(key)}
        >
          <b>{PART_NAMES[key]}</b>
          <span className="says">
            <Mark name={MARKS[state]} size={16} label={STATE_WORDS[state]} /> {says}
          </span>
          <span className="fact">{fact}</span>
        </button>
      ))}
    </nav>
  );
}
