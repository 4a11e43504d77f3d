/** The curves of other sites than those of the report's own, each with its numbers and how far to trust them. */
import {
  curveLookedAt,
  curveOf,
  fromEachCurve,
  type Results,
  sitesNamed,
  sitesOfCurve,
} from '@stillstand/campaign/results';
import { each } from '../quantity.tsx';
import { Ages, Diagnostics } from './curve.tsx';
import { InNumbers } from './found.tsx';

export function OtherSites({ results }: { results: Results }) {
  return each(fromEachCurve(results).slice(1), (seen) => {
    const curve = curveOf(seen);
    const [name, sites] = [curveLookedAt(seen)!, sitesNamed(sitesOfCurve(seen))];
    return (
      <>
        <h3>
          Curve {name}
          {name === sites ? '' : `, of ${sites}`}
        </h3>
        {curve === null ? (
          <p>No curve could be computed. The problem list says what is missing.</p>
        ) : (
          <>
            <InNumbers curve={curve} />
            <Ages curve={curve} />
            <Diagnostics curve={curve} results={seen} />
          </>
        )}
      </>
    );
  });
}
