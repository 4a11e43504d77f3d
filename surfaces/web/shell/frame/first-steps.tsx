/** A newcomer's way through the demo campaign, step by step, beside the stages themselves. */
import { useState } from 'react';
import { Button, Mark } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import type { Stage, StageName } from '../stage.ts';
import './first-steps.css';
import { useNavigate } from '../route.ts';

const KEY = 'stillstand.first-steps';

/** Begins the way for a campaign; ends when it was gone or put away. */
export const beginFirstSteps = (id: string): void => localStorage.setItem(KEY, id);

const WAY: readonly [StageName, string][] = [
  [
    'Plan',
    'Holes along a section, and how high they stand above the tide. The pipe to carry follows from the deepest.',
  ],
  [
    'Drill',
    'One hole as it was drilled: string, plug, sampler. Every number here comes from readings in the book.',
  ],
  [
    'Describe',
    'The layers, with their depth in the core and in the ground: pipe squeezes sediment on its way in.',
  ],
  ['Date', 'Laboratory results and what they mean in calendar years.'],
  ['Points', 'What a dated layer says of the sea. The longest bar is what to improve.'],
  [
    'Curve',
    'Sea level and its rate. Press a number to see where it comes from, down to the tape on the cable.',
  ],
  ['Report', 'Everything for the supplement: figures, tables, methods.'],
];

export function FirstSteps({ stages, current }: { stages: readonly Stage[]; current: StageName | null }) {
  const store = useStore();
  const navigate = useNavigate();
  const [isOn, setOn] = useState(() => localStorage.getItem(KEY) === store.id);
  const way = WAY.filter(([name]) => stages.some((stage) => stage.name === name));
  const at = way.findIndex(([name]) => name === current);
  if (!isOn || at === -1) return null;
  const next = way[at + 1];
  const end = (): void => {
    localStorage.removeItem(KEY);
    setOn(false);
  };
  return (
    <aside className="first-steps" aria-label="First steps">
      <p>
        <b>
          {current}, {at + 1} of {way.length}.
        </b>{' '}
        {way[at]![1]}
      </p>
      <div>
        {next === undefined ? (
          <Button kind="main" mark="tick" onClick={end}>
            End the tour
          </Button>
        ) : (
          <Button kind="main" onClick={() => navigate(next[0])}>
            Next: {next[0]} <Mark name="on" size={18} />
          </Button>
        )}
        <Button kind="bare" mark="cross" aria-label="Put the first steps away" onClick={end} />
      </div>
    </aside>
  );
}
