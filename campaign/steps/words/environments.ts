/** What the trace says of environments through time. */
import type { EnvironmentResult, LineThroughTime } from '@stillstand/campaign/results';
import type { Told } from '../runner/step.ts';

const number = (count: number, one: string, more: string): string => `${count} ${count === 1 ? one : more}`;

export function tellEnvironments(hole: string, result: EnvironmentResult | null): Told {
  const stood = result?.spells.filter(({ kind }) => kind === 'environment') ?? [];
  const layers = stood.reduce((sum, { units }) => sum + units.length, 0);
  const isAgainstSea = stood.some(({ against_sea }) => against_sea !== null);
  return {
    label: `Environments of ${hole}`,
    how: `ages of ${number(layers, 'layer', 'layers')}, from ages against depth${isAgainstSea ? '; heights against the curve' : ''}`,
    value: stood.length,
    sigma: null,
    unit: stood.length === 1 ? 'spell' : 'spells',
  };
}

export function tellLine(
  line: string | null,
  { edge, past_sections }: Pick<LineThroughTime, 'edge' | 'past_sections'>,
): Told {
  return {
    label: line === null ? 'The line through all holes through time' : `Section line ${line} through time`,
    how:
      edge === null
        ? 'environments of its holes'
        : `environments of its holes; the edge of ${edge.inner.join(', ')}`,
    value: past_sections.length,
    sigma: null,
    unit: past_sections.length === 1 ? 'age drawn' : 'ages drawn',
  };
}
