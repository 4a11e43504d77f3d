/** The gear list of a day as the campaign has it now, and what it assumes. */
import { gearList, type PackingLine, packingList } from '@stillstand/campaign/holes';
import { type GearAssumption, gearAssumptions } from '@stillstand/campaign/settings';
import { useMemo } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { useStore } from '../../../store/index.ts';

/** `date` is the day planned, `2024-03-05`. */
export function usePacking(date: string): PackingLine[] {
  const store = useStore();
  const { campaign } = useComputation();
  const lines = useMemo(() => {
    if (campaign === null) return [];
    const typed = new Map(campaign.rows.settings.map(({ name, value }) => [name, value]));
    const assumed = gearAssumptions((name: GearAssumption) => typed.get(name) ?? null);
    return gearList(campaign, assumed, date);
  }, [campaign, date]);
  return packingList(lines, store.rows('packing'), date);
}

/** What is short, each in a word, and how many lines are not packed. */
export function packingGaps(lines: readonly PackingLine[]): { short: string[]; unpacked: number } {
  const needed = lines.filter(({ amount }) => amount !== 0);
  return {
    short: needed.filter(({ short }) => (short ?? 0) > 0).map(({ item }) => item.toLowerCase()),
    unpacked: needed.filter(({ isPacked }) => !isPacked).length,
  };
}
