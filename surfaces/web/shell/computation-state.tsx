/** A computation that stopped by a fault of the program: said once, calmly, above the page. */
import { useComputation } from '../compute/index.ts';
import { Button, Plate } from '../parts/index.ts';
import './computation-state.css';

export function ComputationStopped() {
  const { state, failure, results, again } = useComputation();
  if (state !== 'failed') return null;
  return (
    <div className="computation-stopped" role="status">
      <Plate word="The computation stopped">
        <p>
          What the program said: {failure}. Your campaign is safe; nothing typed is lost.
          {results === null ? '' : ' The numbers on the page are from before the last change.'} The next
          change is computed anew.
        </p>
        <Button onClick={again}>Compute again</Button>
      </Plate>
    </div>
  );
}
