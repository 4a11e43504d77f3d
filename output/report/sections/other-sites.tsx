/** The curves of other sites than those of the report's own, each with its numbers and how far to trust them. */
import type { Dating } from '@stillstand/campaign/budget';
import {
  curveLookedAt,
  curveOf,
  fromEachCurve,
  nameInTrace,
  type Results,
  sitesNamed,
  sitesOfCurve,
} from '@stillstand/campaign/results';
import { useContext } from 'react';
import { each } from '../quantity.tsx';
import { AskedContext } from '../where/from.tsx';
import { Ages, Diagnostics } from './curve.tsx';
import { InNumbers } from './found.tsx';
import { curveRemarks, Unsettled } from './unsettled.tsx';

export function OtherSites({ results, dating }: { results: Results; dating: Dating | null }) {
  const asked = useContext(AskedContext);
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
          <AskedContext value={asked === null ? null : { ...asked, curve: nameInTrace(seen) }}>
            <InNumbers curve={curve} />
            <Ages curve={curve} />
            <Unsettled remarks={curveRemarks(curve, `curve ${name}`)} />
            <Diagnostics curve={curve} results={seen} dating={dating} />
          </AskedContext>
        )}
      </>
    );
  });
}
