/** The whole hole, or one core of it, one after the other. */

import type { Core } from '@stillstand/campaign/chain';
import { Button, Mark } from '../../parts/index.ts';
import './core-choice.css';

export function CoreChoice({
  cores,
  one,
  onShow,
}: {
  cores: readonly Core[];
  one: Core | null;
  onShow: (core: Core | null) => void;
}) {
  const single = cores.filter((core) => core.run !== '');
  if (single.length < 2) return null;
  const at = one === null ? -1 : single.indexOf(one);
  const before = single[at - 1];
  const after = single[at + 1];
  return (
    <fieldset className="core-choice" aria-label="What is drawn">
      <Button aria-pressed={one === null} onClick={() => onShow(null)}>
        Whole hole
      </Button>
      <Button
        aria-label="The core above"
        disabled={before === undefined}
        onClick={() => onShow(before ?? null)}
      >
        <Mark name="up" size={18} />
      </Button>
      <select
        aria-label="One core"
        title="Shows one run or push large, or the whole hole"
        value={one?.name ?? ''}
        onChange={(event) => onShow(single.find((core) => core.name === event.target.value) ?? null)}
      >
        <option value="">one core</option>
        {single.map((core) => (
          <option key={core.name}>{core.name}</option>
        ))}
      </select>
      <Button
        aria-label="The core below"
        disabled={after === undefined}
        onClick={() => onShow(after ?? null)}
      >
        <Mark name="down" size={18} />
      </Button>
    </fieldset>
  );
}
