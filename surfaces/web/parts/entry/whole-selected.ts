/** The field in hand has the focus; one that was just pressed has its value selected, so that typing replaces it. */
import { type RefObject, useEffect, useRef } from 'react';

export function useWholeSelected(
  focused: boolean,
  isWhole: boolean,
  text: string,
): RefObject<HTMLInputElement | null> {
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    void text;
    if (!focused || input.current === null) return;
    if (document.activeElement !== input.current) input.current.focus({ preventScroll: true });
    if (isWhole) input.current.select();
  }, [focused, isWhole, text]);
  return input;
}
