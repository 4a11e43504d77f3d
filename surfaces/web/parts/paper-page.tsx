/**
 * A page as it will print, inside the screen but apart from its style. The app's policy lets no frame and no style
 * from text in, so the page stands in a shadow tree, and its rules and inline styles are put there by the object model.
 */
import { useEffect, useRef } from 'react';
import './paper-page.css';

/** Rules of the page, made to reach into a shadow tree. */
function rulesOf(html: string): string {
  const css = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? '';
  return css
    .replaceAll('<\\/', '</')
    .replaceAll(/@page\{[^{}]*(?:\{[^{}]*\}[^{}]*)*\}/g, '')
    .replaceAll(':root', ':host')
    .replaceAll(/(^|[\s}{])html\{/g, '$1:host{display:block;')
    .replaceAll(/(^|[\s}{])body\{/g, '$1.sheet{');
}

/** What stands between the tags of the body, cut where its sections begin; the screen around it is the main part already. */
const piecesOf = (html: string): string[] =>
  (/<body>([\s\S]*)<\/body>/.exec(html)?.[1] ?? '')
    .replaceAll(/<\/?main>/g, '')
    .replaceAll(' style="', ' data-style="')
    .split(/(?=<section id=)/);

/** Where the page's own rules let its tables scroll sideways: what scrolls must be reachable by keyboard. */
const NARROW = matchMedia('(max-width: 600px)');

function reachByKeyboard(page: ParentNode): void {
  for (const table of page.querySelectorAll('table')) {
    if (NARROW.matches) table.tabIndex = 0;
    else table.removeAttribute('tabindex');
  }
}

/** In the tent the page keeps to the dark: its inks are then the screen's own. */
const NIGHT_INKS = `:host{${[
  'paper',
  'leaf',
  'rule',
  'line',
  'ink',
  'ink-2',
  'ink-3',
  'sea',
  'caution',
  'caution-plate',
  'danger',
  'on-danger',
]
  .map((name) => `--${name}:inherit`)
  .join(';')}}`;

/**
 * Sections and figures are laid out when they come into view: thirty figures at once would hold the screen up. A figure's
 * room is kept from the start; a section's is guessed until it was seen.
 */
function drawWhenSeen(page: DocumentFragment): void {
  for (const section of page.querySelectorAll<HTMLElement>(':scope > section')) {
    section.style.contentVisibility = 'auto';
    section.style.containIntrinsicSize = 'auto 1200px';
  }
  for (const svg of page.querySelectorAll<SVGSVGElement>('figure > div > svg[viewBox]')) {
    const { width, height } = svg.viewBox.baseVal;
    const room = svg.parentElement!.style;
    room.maxWidth = svg.getAttribute('width') ?? '';
    room.aspectRatio = `${width} / ${height}`;
    room.contentVisibility = 'auto';
  }
}

export function PaperPage({
  html,
  theme,
  onSections,
}: {
  html: string;
  theme: 'print' | 'day' | 'night';
  /** Tops of the sections, px from the page's own top, whenever they may have moved. */
  onSections?: (tops: ReadonlyMap<string, number>) => void;
}) {
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = host.current;
    if (element === null) return;
    const shadow = element.shadowRoot ?? element.attachShadow({ mode: 'open' });
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(rulesOf(html) + (theme === 'night' ? NIGHT_INKS : ''));
    const page = document.createElement('div');
    page.className = 'sheet';
    // Links of the contents lead inside the shadow tree, where the address does not reach.
    page.addEventListener('click', (event) => {
      const link = (event.target as Element).closest('a[href^="#"]');
      if (link === null) return;
      event.preventDefault();
      shadow.getElementById(link.getAttribute('href')!.slice(1))?.scrollIntoView();
    });
    let isOver = false;
    const isFirst = shadow.childElementCount === 0;
    const show = (): void => {
      if (page.isConnected) return;
      shadow.adoptedStyleSheets = [sheet];
      shadow.replaceChildren(page);
    };
    const observer = new ResizeObserver(() => tell());
    const fill = async (): Promise<void> => {
      for (const piece of piecesOf(html)) {
        const part = document.createElement('template');
        part.innerHTML = piece;
        for (const styled of part.content.querySelectorAll<HTMLElement>('[data-style]')) {
          styled.style.cssText = styled.dataset['style'] ?? '';
        }
        reachByKeyboard(part.content);
        if (theme !== 'print') drawWhenSeen(part.content);
        page.append(part.content);
        // The first page is seen growing; a later one takes its place whole, so that nobody's place in it is lost.
        if (isFirst) show();
        // A page of thirty figures is read in pieces, so that keys are answered between them.
        await new Promise((done) => setTimeout(done));
        if (isOver) return;
      }
      show();
      element.ariaBusy = null;
      if (onSections !== undefined) observer.observe(page);
    };
    element.ariaBusy = 'true';
    void fill();
    const narrowed = (): void => reachByKeyboard(page);
    NARROW.addEventListener('change', narrowed);
    const tell = (): void => {
      if (onSections === undefined) return;
      const top = element.getBoundingClientRect().top;
      const tops = [...shadow.querySelectorAll('section[id], h2[id]')].map(
        (section) => [section.id, section.getBoundingClientRect().top - top] as const,
      );
      onSections(new Map(tops));
    };
    return () => {
      isOver = true;
      observer.disconnect();
      NARROW.removeEventListener('change', narrowed);
    };
  }, [html, theme, onSections]);
  return <div ref={host} className="report-page" data-page={theme} />;
}
