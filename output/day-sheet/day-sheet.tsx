/** The page of one day: what was drilled, what is open, what comes next, and who signs. The same facts, the same bytes. */
import type { DayFacts } from '@stillstand/campaign/holes';
import { campaignNamed, Said, SheetHead, Signed, sheetHtml } from '@stillstand/output/sheet';
import { counted, printed } from '@stillstand/output/words';
import type { ReactNode } from 'react';

/** So many are printed of each list; how many more there are is said, and they are in the log. */
const LIMITS = { holes: 5, open: 5, permits: 3, events: 6, stops: 4, calls: 4, instruments: 2 } as const;

/** Characters of one entry and runs of one hole, so that even the fullest day keeps to its page. */
function roomOn({ holes, open, permits, events, calls, stops, instruments }: DayFacts): Room {
  const entries =
    open.length + permits.length + events.length + calls.length + stops.length + instruments.length;
  if (entries + 2 * holes.length > 16) return { words: 50, runs: 3, isFull: true };
  const [words, runs] = entries + 2 * holes.length > 8 ? [70, 6] : [120, 12];
  return { words, runs, isFull: false };
}

interface Room {
  words: number;
  runs: number;
  /** Set smaller. */
  isFull: boolean;
}

/** An HTML document that loads nothing and prints to one A4 page. */
export const daySheetHtml = (facts: DayFacts): string =>
  sheetHtml(`${campaignNamed(facts.campaign)}, ${facts.date}`, roomOn(facts).isFull, <Sheet facts={facts} />);

function Sheet({ facts }: { facts: DayFacts }) {
  const runs = facts.holes.reduce((sum, h) => sum + h.runs.length, 0);
  const room = roomOn(facts);
  const cut = (words: string): string => cutAt(words, room.words);
  const list = (names: readonly string[]): string => (names.length === 0 ? 'none' : cut(names.join(', ')));
  return (
    <>
      <SheetHead title={`Day sheet ${facts.date}`} campaign={facts.campaign} />
      <div className="people">
        <Said name="Crew" words={cutAt(facts.crew, 80)} />
        <Said name="Read and recorded by" words={cutAt(facts.recorders.join(', '), 80)} />
        <Said name="Weather" words={cutAt(facts.weather, 80)} />
        <Said name="Contact ashore" words={cutAt(facts.contacts, 80)} />
      </div>
      <div className="totals">
        <p>
          <b>{printed(facts.driven_m, 2)} m</b>driven
        </p>
        <p>
          <b>{printed(facts.recovered_m, 2)} m</b>
          recovered in {counted(runs, 'run')}
          {facts.unmeasured === 0 ? '' : `, ${facts.unmeasured} not measured`}
        </p>
        <p>
          <b>{facts.leave_by === '' ? '–' : facts.leave_by}</b>leave by
        </p>
      </div>
      <Holes facts={facts} room={room} />
      <Part title="Dangers and problems still open" none="None recorded.">
        {some(facts.open, LIMITS.open, 'in the problem list', (o) => (
          <li className={o.level} key={o.words}>
            {o.level === 'danger' ? 'Danger: ' : 'Caution: '}
            {cut(o.words)}
          </li>
        ))}
      </Part>
      <div className="two">
        <div>
          <Part title="Events" none="None recorded.">
            {some(facts.events, LIMITS.events, 'in the log', (e, i) => (
              <li key={i} className={e.kind === 'injury' ? 'danger' : undefined}>
                <b>
                  {[e.clock, e.hole, e.kind].filter(Boolean).join(' ')}
                  {e.by === '' ? '' : `, ${e.by}`}
                </b>{' '}
                {cut(e.words)}
              </li>
            ))}
          </Part>
          <Part title="Call-ins" none="None recorded.">
            {some(facts.calls, LIMITS.calls, 'in the events', (c) => (
              <li key={c.clock + c.words} className={c.level}>
                <b>{c.clock}</b> {cut(c.words)}
              </li>
            ))}
          </Part>
        </div>
        <div>
          {facts.permits.length === 0 ? null : (
            <Part title="Permits" none="">
              {some(facts.permits, LIMITS.permits, 'in Plan', (p) => (
                <li
                  key={p.words}
                  className={p.level === 'ok' ? undefined : p.level === 'stop' ? 'danger' : 'caution'}
                >
                  {cut(p.words)}
                </li>
              ))}
            </Part>
          )}
          <Part title="Stops over 30 minutes" none="None found.">
            {some(facts.stops, LIMITS.stops, 'in the log', (s) => (
              <li key={s.hole + s.words}>
                <b>{s.hole}</b> {cut(s.words)}
              </li>
            ))}
          </Part>
          <Part title="Instrument checks" none="None recorded.">
            {some(facts.instruments, LIMITS.instruments, 'in Plan', (c) => (
              <li key={c.words} className={c.isBeyond ? 'caution' : undefined}>
                {cut(c.words)}
              </li>
            ))}
          </Part>
          <Part title="Pipe of the day" none="">
            <li>
              <b>Went in</b> {list(facts.pipe.went_in)}
            </li>
            <li>
              <b>Came out</b> {list(facts.pipe.came_out)}
            </li>
            <li>
              <b>In the string at the end of the day</b> {list(facts.pipe.in_string)}
            </li>
            <li className={facts.pipe.not_back.length > 0 ? 'caution' : undefined}>
              <b>Damaged, cut, left, lost or not accounted for</b> {list(facts.pipe.not_back)}
            </li>
            {facts.pipe.undated.length === 0 ? null : (
              <li className="caution">
                <b>On which day is not known</b> {list(facts.pipe.undated)}
              </li>
            )}
          </Part>
        </div>
      </div>
      <h2>Plan for the next day</h2>
      <p className="plan">{cutAt(facts.plan_next, 220)}</p>
      <Signed rows={2} />
      <p className="foot">{footOf(facts)}</p>
    </>
  );
}

function Holes({ facts, room }: { facts: DayFacts; room: Room }) {
  if (facts.holes.length === 0) return <p className="quiet">No reading at any hole has this date.</p>;
  const shown = facts.holes.slice(0, LIMITS.holes);
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">hole</th>
          <th scope="col">started</th>
          <th scope="col">ended</th>
          <th scope="col" className="n">
            driven, m
          </th>
          <th scope="col" className="n">
            depth reached, m
          </th>
          <th scope="col">runs, recovered m</th>
          <th scope="col">at the end of the day</th>
        </tr>
      </thead>
      <tbody>
        {shown.map((h) => (
          <tr key={h.hole}>
            <td className="id">{h.hole}</td>
            <td>{h.started ?? ''}</td>
            <td>{h.ended ?? ''}</td>
            <td className="n">{printed(h.driven_m, 2)}</td>
            <td className="n">{printed(h.reached_m, 2)}</td>
            <td>{runWords(h.runs, room.runs)}</td>
            <td>{cutAt(h.state, room.words)}</td>
          </tr>
        ))}
        {facts.holes.length > shown.length ? (
          <tr>
            <td colSpan={7}>{facts.holes.length - shown.length} more in the log</td>
          </tr>
        ) : null}
      </tbody>
    </table>
  );
}

/** "R1 0.98, R2 not measured": the last ones, and how many came before. */
function runWords(runs: DayFacts['holes'][number]['runs'], most: number): string {
  const before = runs.length - most;
  const said = runs
    .slice(-most)
    .map((r) => `${r.label} ${r.recovered_m === null ? 'not measured' : printed(r.recovered_m, 2)}`);
  return [...(before > 0 ? [`${before} before`] : []), ...said].join(', ');
}

/** A list under its title; what is not there is said to be. */
function Part({ title, none, children }: { title: string; none: string; children: ReactNode }) {
  return (
    <section>
      <h2>{title}</h2>
      {children === null ? <p className="quiet">{none}</p> : <ul>{children}</ul>}
    </section>
  );
}

function some<Item>(
  items: readonly Item[],
  limit: number,
  where: string,
  child: (item: Item, index: number) => ReactNode,
): ReactNode {
  if (items.length === 0) return null;
  return (
    <>
      {items.slice(0, limit).map(child)}
      {items.length > limit ? (
        <li className="quiet">
          {items.length - limit} more {where}
        </li>
      ) : null}
    </>
  );
}

const cutAt = (words: string, most: number): string =>
  words.length <= most ? words : `${words.slice(0, most).trimEnd()} …`;

/** What the sheet cannot know. */
function footOf({ undated, unusable }: DayFacts): string {
  return [
    'Times as written, by the clock of the place. Depths below the ground at the start of the hole. Recovered without fall-in.',
    ...(undated === 0 ? [] : [`${counted(undated, 'reading')} without a time: on no day’s sheet.`]),
    ...(unusable === 0
      ? []
      : [`${counted(unusable, 'row')} of the campaign cannot be used: see its problems.`]),
    'Advice only: local codes, the permit and the makers’ manuals take precedence.',
  ].join(' ');
}
