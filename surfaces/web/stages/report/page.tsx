/**
 * The report as it will print, inside the screen but apart from its style. The app's policy lets no frame and no style
 * from text in, so the page stands in a shadow tree, and its rules and inline styles are put there by the object model.
 */
import { useEffect, useRef } from 'react';

/** Rules of the page, made to reach into a shadow tree. */
function rulesOf(html: string): string {
  const css = /<style>([\s\S]*?)<\/style>/.exec(html)?.[1] ?? '';
  return css
    .replaceAll('<\\/', '</')
    .replaceAll(/@page\{[\s\S]*?\}\}/g, '')
    .replaceAll(':root', ':host')
    .replaceAll(/(^|[\s}{])html\{/g, '$1:host{display:block;')
    .replaceAll(/(^|[\s}{])body\{/g, '$1.sheet{');
}

/** What stands between the tags of the body; the screen around it is the main part of the page already. */
const bodyOf = (html: string): string =>
  (/<body>([\s\S]*)<\/body>/.exec(html)?.[1] ?? '').replaceAll(/(<\/?)main>/g, '$1div>');

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

export function ReportPage({
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
    shadow.adoptedStyleSheets = [sheet];
    const page = document.createElement('div');
    page.className = 'sheet';
    page.innerHTML = bodyOf(html).replaceAll(' style="', ' data-style="');
    for (const styled of page.querySelectorAll<HTMLElement>('[data-style]')) {
      styled.style.cssText = styled.dataset['style'] ?? '';
    }
    // Links of the contents lead inside the shadow tree, where the address does not reach.
    page.addEventListener('click', (event) => {
      const link = (event.target as Element).closest('a[href^="#"]');
      if (link === null) return;
      event.preventDefault();
      shadow.getElementById(link.getAttribute('href')!.slice(1))?.scrollIntoView();
    });
    shadow.replaceChildren(page);
    if (onSections === undefined) return;
    const tell = (): void => {
      const top = element.getBoundingClientRect().top;
      const tops = [...shadow.querySelectorAll('[id]')].map(
        (section) => [section.id, section.getBoundingClientRect().top - top] as const,
      );
      onSections(new Map(tops));
      // What scrolls must be reachable by keyboard.
      for (const table of shadow.querySelectorAll('table')) {
        if (table.scrollWidth > table.clientWidth + 1) table.tabIndex = 0;
        else table.removeAttribute('tabindex');
      }
    };
    const observer = new ResizeObserver(tell);
    observer.observe(page);
    return () => observer.disconnect();
  }, [html, theme, onSections]);
  return <div ref={host} className="report-page" data-page={theme} />;
}
