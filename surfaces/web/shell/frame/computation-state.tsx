/** A computation that stopped by a fault of the program: said once, calmly, above the page. */
import { useComputation } from '../../compute/index.ts';
import { Button, Plate } from '../../parts/index.ts';
import './computation-state.css';

export function ComputationStopped() {
  const { state, failure, results, again } = useComputation();
  if (state !== 'failed') return null;
  return (
    <div className="computation-stopped" role="status">
      <Plate word="The computation stopped">
        <p>
          Details: {failure}. Your campaign is safe; nothing typed is lost.
          {results === null ? '' : ' Numbers shown predate your last change.'} The next edit starts a new
          computation.
        </p>
        <Button onClick={again}>Compute again</Button>
      </Plate>
    </div>
  );
}
