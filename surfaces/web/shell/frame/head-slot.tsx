/** A stage's own words in the page head: it says what it needs, the head makes room. */
import { createContext, type ReactNode, useContext, useEffect } from 'react';
import { createPortal } from 'react-dom';

export interface HeadPlaces {
  /** In place of the campaign's name. */
  title: HTMLElement | null;
  /** At the right. */
  aside: HTMLElement | null;
  setOwnTitle: (own: boolean) => void;
}

export const HeadContext = createContext<HeadPlaces>({
  title: null,
  aside: null,
  setOwnTitle: () => undefined,
});

/** Put this anywhere in a stage; its children are drawn at the right of the page head. */
export function HeadAside({ children }: { children: ReactNode }) {
  const { aside } = useContext(HeadContext);
  return aside === null ? null : createPortal(children, aside);
}

/** The same, in place of the campaign's name, e.g. the hole on Drill. */
export function HeadTitle({ children }: { children: ReactNode }) {
  const { title, setOwnTitle } = useContext(HeadContext);
  useEffect(() => {
    setOwnTitle(true);
    return () => setOwnTitle(false);
  }, [setOwnTitle]);
  return title === null ? null : createPortal(children, title);
}
