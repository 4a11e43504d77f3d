import type { TraceId } from '@stillstand/campaign/results';
import {
  createContext,
  type ReactNode,
  useContext,
  useEffect,
  useLayoutEffect,
  useRef,
  useSyncExternalStore,
} from 'react';
import { t } from '../../language/index.ts';
import { ChangedContext, type ShownNumber } from './changed.ts';
import './quantity.css';

/** Opens "where does this come from?" for a number; given by the shell. */
export const TraceContext = createContext<((id: TraceId) => void) | null>(null);

/** Wraps a number that can tell where it comes from: press, click or Enter opens its trace. Null: it has none. */
export function Traced({ id, children }: { id: TraceId | null; children: ReactNode }) {
  const open = useContext(TraceContext);
  if (open === null || id === null) return <>{children}</>;
  return (
    <TracedButton id={id} onOpen={open}>
      {children}
    </TracedButton>
  );
}

const never = () => () => undefined;

function TracedButton({
  id,
  onOpen,
  children,
}: {
  id: TraceId;
  onOpen: (id: TraceId) => void;
  children: ReactNode;
}) {
  const numbers = useContext(ChangedContext);
  const shown = useRef<ShownNumber>({ id, element: null });
  useLayoutEffect(() => {
    // A number keeps its place on the page when its name changes.
    shown.current.id = id;
  }, [id]);
  useEffect(() => numbers?.watch(shown.current), [numbers]);
  const changed = useSyncExternalStore(numbers?.subscribe ?? never, () => numbers?.of(shown.current) ?? null);
  return (
    <button
      ref={(element) => {
        shown.current.element = element;
      }}
      type="button"
      className={changed === null ? 'traced' : 'traced changed'}
      title={
        changed === null
          ? t`Where does this come from?`
          : t`Was ${changed.was} until ${changed.until}. Where does this come from?`
      }
      onClick={() => {
        numbers?.look(shown.current);
        onOpen(id);
      }}
    >
      {children}
    </button>
  );
}
