/** Samplers that cannot be had: lost or stuck, by the outcome of their last run. */
import { type SamplerItem, samplerWords } from '@stillstand/campaign/holes';
import { Mark } from '../../../parts/index.ts';

export function SamplersAway({ samplers }: { samplers: readonly SamplerItem[] }) {
  const away = samplers.filter(({ whereabouts }) => whereabouts !== 'at hand');
  if (away.length === 0) return null;
  return (
    <p className="says-why">
      <Mark name="close" size={16} />{' '}
      {away.map((sampler) => `${sampler.sampler} ${samplerWords(sampler)}`).join('; ')}
    </p>
  );
}
