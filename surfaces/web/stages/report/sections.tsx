/** The page's own contents, each section with the gravest of its flags. */
import { useMemo } from 'react';
import { Mark } from '../../parts/index.ts';
import { MARK_WORDS } from './flag-note.tsx';
import type { Flag } from './flags.ts';
import './sections.css';

export function Sections({ html, flags }: { html: string | null; flags: readonly Flag[] }) {
  const sections = useMemo(() => {
    const nav = /<nav class="contents">([\s\S]*?)<\/nav>/.exec(html ?? '')?.[1] ?? '';
    return [...nav.matchAll(/href="#([^"]+)">([^<]*)</g)].map(([, id = '', words = '']) => ({ id, words }));
  }, [html]);
  if (sections.length === 0) return null;
  return (
    <section className="sections" aria-labelledby="page-contents">
      <h2 id="page-contents">On the page</h2>
      <ul>
        {sections.map(({ id, words }) => {
          const own = flags.filter((flag) => flag.section === id);
          const first = own[0];
          return (
            <li key={id}>
              <button
                type="button"
                onClick={() =>
                  document
                    .querySelector('.desk .report-page')
                    ?.shadowRoot?.getElementById(id)
                    ?.scrollIntoView()
                }
              >
                <span>{words}</span>
                {first === undefined ? null : (
                  <span className={`flagged ${first.kind}`}>
                    <Mark name={first.kind} size={16} label={MARK_WORDS[first.kind]} />
                    {own.length > 1 ? own.length : ''}
                  </span>
                )}
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
