/**
 * The answers to "where does this come from?": every number the page asked for and all it was made of, each once. The page
 * runs nothing: an answer is shown while it is the target of the address, and its parts are links to theirs.
 */
import type { TraceId, TraceNode } from '@stillstand/campaign/results';
import { tracedNumber } from '@stillstand/output/words';
import { each } from '../quantity.tsx';
import { type Asked, anchorOf } from './from.tsx';

export function WhereAnswers({ asked }: { asked: Asked }) {
  const { where } = asked;
  const found = new Map<TraceId, TraceNode>();
  const waiting = [...asked.ids];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (found.has(id)) continue;
    const node = where.node(id);
    if (node === null) continue;
    found.set(id, node);
    waiting.push(...node.parts);
  }
  const parts = ({ parts }: TraceNode): TraceNode[] => parts.flatMap((part) => found.get(part) ?? []);
  return (
    <section className="where" aria-label="Where numbers come from">
      {each([...found.values()], (node) => (
        <div id={anchorOf(node.id)} className="node">
          <p>
            <a href="#closed" className="close">
              Close
            </a>
            <b>{node.label}</b> {tracedNumber(node)}
          </p>
          <p className="q">{node.row === null ? node.how : where.typed(node.row)}</p>
          {node.parts.length === 0 ? null : (
            <ul>
              {each(parts(node), (part) => (
                <li>
                  <a href={`#${anchorOf(part.id)}`}>{part.label}</a> {tracedNumber(part)}
                </li>
              ))}
            </ul>
          )}
        </div>
      ))}
    </section>
  );
}
