/** A flag in the margin: its mark, its words, and the stage it leads to. */
import { Mark } from '../../parts/index.ts';
import { useNavigate } from '../../shell/index.ts';
import type { Flag } from './flags.ts';

export const MARK_WORDS = {
  unconverged: 'not converged',
  stop: 'missing',
  close: 'caution',
  note: 'note',
} as const;

export function FlagNote({ flag }: { flag: Flag }) {
  const navigate = useNavigate();
  const words = (
    <>
      <Mark name={flag.kind} size={18} label={MARK_WORDS[flag.kind]} />
      <span>{flag.words}</span>
    </>
  );
  const { to } = flag;
  if (to === null) return <div>{words}</div>;
  return (
    <button type="button" onClick={() => navigate(to.stage, to.params)} title={`Open in ${to.stage}`}>
      {words}
    </button>
  );
}
