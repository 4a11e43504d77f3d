/** One hole: its drawing at the left, what is chosen in it at the right. */

import type { Core } from '@stillstand/campaign/chain';
import type { HoleResult, Results } from '@stillstand/campaign/results';
import { useEffect, useState } from 'react';
import { Button, useWidth } from '../../parts/index.ts';
import { useTheme } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { useChanges } from './changes.ts';
import { foundOf, useChosenRow } from './chosen.ts';
import { CoreChoice } from './core-choice.tsx';
import { useDescribed } from './described.ts';
import { type Chosen, Drawing } from './drawing/drawing.tsx';
import { useMovement } from './moving.ts';
import { ChosenPanel } from './panel/chosen-panel.tsx';
import './hole-page.css';

export function HolePage({
  results,
  hole,
  row,
}: {
  results: Results;
  hole: HoleResult;
  /** A row to be chosen when the page opens. */
  row: string | null;
}) {
  const store = useStore();
  const { theme } = useTheme();
  const [place, width] = useWidth(0);
  const movement = useMovement();
  const [chosen, setChosen] = useState<Chosen>(null);
  const [oneName, setOneName] = useState<string | null>(null);
  const described = useDescribed(hole, movement.edits);
  const { cores, description: d, samples, photos } = described;
  const changes = useChanges(described, movement, setChosen);
  const one = cores.find((core) => core.name === oneName) ?? null;
  const bottom_m = Math.max(
    0.2,
    hole.penetration_m ?? 0,
    ...hole.units.map((u) => u.depth_bottom_m.value),
    ...hole.runs.map((r) => r.depth_bottom_m.value),
  );
  useChosenRow(row, d.layers, samples, photos, setChosen);
  const show = (core: Core | null): void => {
    movement.settle();
    setOneName(core?.name ?? null);
    setChosen(null);
  };
  // Room for the drawing: what is left of the screen below the head and the tools, but never too little to draw in.
  const height = useDrawingHeight(width);

  return (
    <div className="describe-hole">
      <div className="drawing-leaf">
        <CoreChoice cores={cores} one={one} onShow={show} />
        <div ref={place} className="drawing-place">
          {width === 0 ? null : (
            <Drawing
              hole={hole}
              cores={cores}
              one={one}
              bottom_m={bottom_m}
              description={d}
              samples={samples}
              photos={photos}
              chosen={chosen}
              theme={theme}
              width={width}
              height={height}
              isReadOnly={store.readOnly}
              onChoose={setChosen}
              onMoveContact={changes.moveContact}
              onMoveSample={changes.moveSample}
              onMerge={changes.mergeAt}
            />
          )}
        </div>
        <p className="drawing-notes">
          Black came up, crossed was lost; ties lead to where it lay. ± is 2 sd.
          {d.contacts.length === 0 ? '' : ' Contacts are dragged, or chosen and moved with the arrows.'}
        </p>
      </div>
      <div className="describe-panel">
        <p className="describe-said" role="status">
          {changes.said}
        </p>
        {chosen === null ? null : (
          <Button
            kind="bare"
            mark="cross"
            className="unchoose"
            aria-label="Choose nothing"
            onClick={() => setChosen(null)}
          />
        )}
        <ChosenPanel
          found={foundOf(chosen, described)}
          onChoose={setChosen}
          onCore={show}
          {...{ results, described, changes, one }}
        />
      </div>
    </div>
  );
}

function useDrawingHeight(width: number): number {
  const [screen, setScreen] = useState(innerHeight);
  useEffect(() => {
    const measure = (): void => setScreen(innerHeight);
    addEventListener('resize', measure);
    return () => removeEventListener('resize', measure);
  }, []);
  const isPhone = width < 360;
  // Below 1,100 px the stages stand at the foot.
  const isTablet = !isPhone && innerWidth < 1100;
  return Math.max(isPhone ? 420 : 520, Math.min(1000, screen - (isPhone ? 330 : isTablet ? 276 : 216)));
}
