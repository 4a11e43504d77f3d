/** Across the top of an earlier state of the campaign: when it was so, and the way back. */
import { Button, counted, Mark } from '../../parts/index.ts';
import { actName, momentWords, useStore } from '../../store/index.ts';
import { go } from '../route.ts';

export function EarlierBar() {
  const { earlier } = useStore();
  if (earlier === null) return null;
  const { campaign, act, later } = earlier;
  const open = (params: Readonly<Record<string, string>>): void => go({ campaign, stage: 'history', params });
  return (
    <div className="read-only earlier" role="status">
      <Mark name="history" size={22} />
      <p>
        <b>As it was {act === null ? 'before the first recorded change' : `on ${momentWords(act.time)}`}</b>
        {act === null ? `; ${counted(later, 'change')} since` : `, before ${counted(later, 'later change')}`}.
        Read only.
      </p>
      <Button onClick={() => open({ compare: actName(act) })}>Compare with now</Button>
      <Button kind="main" onClick={() => open({})}>
        Back to now
      </Button>
    </div>
  );
}
