/** The hole to scale with its two ends enlarged: one drawing, the same on screen and on paper, in points. */

import { INKS, InkContext, type Theme } from '@stillstand/output/drawing';
import { atLeast, atMost } from '@stillstand/science/base';
import { CollarEnd } from './collar-end.tsx';
import { RateBars } from './rates.tsx';
import { type Say, SayContext } from './say.ts';
import { ShoeEnd } from './shoe-end.tsx';
import { DANGER } from './steel.ts';
import { ToScale } from './to-scale.tsx';
import type { HoleView } from './view.ts';

/** As wide as one column of a page less its margins allows, points; 7 pt of text are 15 px on the rig's screen. */
export const HOLE_DRAWING = { width: 209, height: 293 } as const;

/** The drawing itself, for inside an SVG of `HOLE_DRAWING.width` by `height` points. `id` must be unique in the page. */
export function HoleDrawing({
  view,
  theme,
  id,
  height = HOLE_DRAWING.height,
  say = (english) => english,
}: {
  view: HoleView;
  theme: Theme;
  id: string;
  height?: number;
  /** Its words in another language. */
  say?: Say;
}) {
  const danger = DANGER[theme];
  const collar = Math.round(height * 0.33);
  return (
    <SayContext value={say}>
      <InkContext value={INKS[theme]}>
        <ToScale view={view} height={height} id={id} danger={danger} />
        {view.drives !== null ? (
          <RateBars view={view} height={height} right={HOLE_DRAWING.width - 5} />
        ) : (
          <>
            <CollarEnd view={view} top={2} bottom={collar} danger={danger} />
            <ShoeEnd
              view={view}
              top={collar + 14}
              bottom={height - 4}
              right={HOLE_DRAWING.width - 5}
              id={id}
              danger={danger}
            />
          </>
        )}
      </InkContext>
    </SayContext>
  );
}

/** What is drawn, in words, for those who do not see it. */
export function holeWords(view: HoleView): string {
  const m = (x: number) => `${x.toFixed(2)} metres`;
  // what is a limit, or uses one up, on its safe side
  const most = (x: number) => m(atMost(x, 2));
  const least = (x: number) => m(atLeast(x, 2));
  const parts = [
    view.items.length === 0
      ? 'No string in the hole.'
      : `A string of ${view.items.filter((i) => i.item === 'joint').length} joints${view.collar_to_shoe_m === null ? ', its length not known' : `, ${m(view.collar_to_shoe_m)} from collar to shoe`}.`,
    view.shoe_depth_m === null ? '' : `Shoe ${m(view.shoe_depth_m)} below the ground.`,
    view.items.length === 0 ? '' : view.plug_m === null ? 'Plug not sounded.' : `Plug ${most(view.plug_m)}.`,
    view.head_m === null
      ? ''
      : `Water inside ${view.head_m < 0 ? `${least(-view.head_m)} below` : `${most(view.head_m)} above`} the water outside.`,
    view.drives === null
      ? ''
      : `Last drive at ${view.drives.at(-1)!.rate_m_per_min.toFixed(2)} metres a minute.`,
    view.sampler === null
      ? ''
      : `Sampler in the string, its tip ${least(view.sampler.tip_m)} below the collar${view.collar_to_shoe_m === null ? '' : view.sampler.tip_m > view.collar_to_shoe_m ? `, ${least(view.sampler.tip_m - view.collar_to_shoe_m)} past the shoe` : `, ${most(view.collar_to_shoe_m - view.sampler.tip_m)} above the shoe`}${view.unmarked ? '; its cable marks are not confirmed' : ''}.`,
    view.left.length === 0 ? '' : `Left in the ground: ${view.left.map((l) => l.label).join(', ')}.`,
    view.ahead.length === 0
      ? ''
      : `Expected below, not seen: ${view.ahead.map((a) => `${a.sediment} down to ${a.to_m.toFixed(1)} m`).join(', ')}.`,
  ];
  return parts.filter((p) => p !== '').join(' ');
}
