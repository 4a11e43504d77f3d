/** Laboratory values of one hole next to its column; which quantities are drawn is chosen at the right. */
import type { HoleResult, Results } from '@stillstand/campaign/results';
import { laneName, lanesOf } from '@stillstand/output/figures';
import { useMemo, useState } from 'react';
import { Button } from '../../../parts/index.ts';
import { useNavigate } from '../../../shell/index.ts';
import { useStore } from '../../../store/index.ts';
import { GrainSizes } from './grain-sizes.tsx';
import { LogPicture } from './log-picture.tsx';
import { Quantities } from './quantities.tsx';
import './laboratory-page.css';

/** Whether there is anything to show of a hole. */
export const hasLaboratory = ({ logs, grain_sizes }: Results, { hole }: HoleResult): boolean =>
  logs.some((log) => log.hole === hole) || grain_sizes.some((size) => size.hole === hole);

export function LaboratoryPage({ results, hole }: { results: Results; hole: HoleResult }) {
  const navigate = useNavigate();
  const store = useStore();
  const [hidden, setHidden] = useState<ReadonlySet<string>>(new Set());
  const lanes = useMemo(() => lanesOf(results, hole.hole), [results, hole]);
  const toggle = (name: string): void =>
    setHidden((before) => {
      const after = new Set(before);
      if (!after.delete(name)) after.add(name);
      return after;
    });
  const shown = lanes.filter((lane) => !hidden.has(laneName(lane)));
  return (
    <div className="laboratory-page">
      <div className="laboratory-drawing">
        <LogPicture results={results} hole={hole.hole} shown={shown.length} hidden={hidden} />
      </div>
      <div className="describe-panel">
        <section className="panel-part" aria-label="Quantities">
          <h2>Laboratory</h2>
          <p className="quiet">± is 2σ; a number opens where it comes from.</p>
          <Quantities results={results} hole={hole.hole} lanes={lanes} hidden={hidden} onToggle={toggle} />
        </section>
        <GrainSizes results={results} hole={hole.hole} />
        {store.readOnly ? null : (
          <Button mark="open" onClick={() => navigate('Describe', { view: 'import' })}>
            Import lab results
          </Button>
        )}
      </div>
    </div>
  );
}
