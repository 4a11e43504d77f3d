/** The call ashore in the top line: when it is due, from 15 minutes before; the plate below it makes the call. */

import { callWords } from '@stillstand/campaign/holes';
import { useCallIn } from '../../../holes/index.ts';
import { t, translated } from '../../../language/index.ts';
import { Mark } from '../../../parts/index.ts';
import type { Store } from '../../../store/index.ts';

export function CallInTop({ store }: { store: Store }) {
  const call = useCallIn(store);
  if (call === null || call.level === 'later') return null;
  const level = call.level === 'danger' ? 'danger' : 'caution';
  return (
    <p className="leave-by" data-level={level}>
      <Mark name={level === 'danger' ? 'stop' : 'close'} size={20} />
      <strong>{t`call in ${call.due.slice(11, 16)}`}</strong>
      <span>{translated(callWords(call))}</span>
    </p>
  );
}
