/** The keyboard stays where it is at work: an answered question and a corrected cell go, and the focus with them. */
import { type RefObject, useEffect, useRef } from 'react';

/** What is next, in the order in which a table is decided. */
const NEXT = '.import-asked li[data-waits="true"] :is(select, input, button), .import-wrong input';

/** `after`: changes with each decision and correction. */
export function useFocusKept(inside: RefObject<HTMLElement | null>, after: unknown): void {
  const isFirst = useRef(true);
  // biome-ignore lint/correctness/useExhaustiveDependencies: looked at after each decision
  useEffect(() => {
    if (isFirst.current) {
      isFirst.current = false;
      return;
    }
    const { activeElement } = document;
    if (activeElement !== null && activeElement !== document.body) return;
    const next = inside.current?.querySelector<HTMLElement>(NEXT);
    // A cell to type in would raise the keyboard of a phone over what was just answered.
    const isTyped = next?.localName === 'input' && matchMedia('(pointer: coarse)').matches;
    if (next != null && !isTyped) next.focus();
    else
      inside.current
        ?.querySelector<HTMLElement>('.import-lines [role="status"]')
        ?.focus({ preventScroll: true });
  }, [after]);
}
