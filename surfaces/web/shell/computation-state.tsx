/** A computation that stopped by a fault of the program: said once, calmly, above the page. */
import { useComputation } from '../compute/index.ts';
import { Button, Plate } from '../parts/index.ts';

export function ComputationStopped() {
  const { state, failure, again } = useComputation();
  if (state !== 'failed') return null;
  return (
    <Plate state="caution" word="The computation stopped">
      <p role="status">
        What the program said: {failure}. Your campaign is safe; nothing typed is lost. Numbers on the page
        are from before.
      </p>
      <p>
        <Button onClick={again}>Compute again</Button>
      </p>
    </Plate>
  );
}
