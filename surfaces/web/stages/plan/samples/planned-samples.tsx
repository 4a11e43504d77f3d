/** What is to be taken from the holes, what became of it, and its labels before anything is drilled. */
import { plannedSamples } from '@stillstand/campaign/chain';
import { useMemo } from 'react';
import { useComputation } from '../../../compute/index.ts';
import { Button, counted, Mark } from '../../../parts/index.ts';
import { useNavigate } from '../../../shell/index.ts';
import { RowsTable } from '../rows-table.tsx';

export function PlannedSamples() {
  const navigate = useNavigate();
  const { campaign } = useComputation();
  const byHole = useMemo(() => {
    const planned = campaign === null ? [] : plannedSamples(campaign);
    return [...Map.groupBy(planned, ({ row }) => row.hole)];
  }, [campaign]);
  return (
    <RowsTable
      table="planned_samples"
      caption="Planned samples"
      columns={['sample', 'hole', 'top', 'bottom', 'unit', 'material', 'purpose']}
      add="Plan a sample"
      fold={12}
      foot={
        byHole.length === 0 ? (
          <p className="quiet small">By depth below ground, or by the unit they are to come from.</p>
        ) : (
          <ul>
            {byHole.map(([hole, planned]) => {
              const open = planned.filter(({ state }) => state !== 'taken');
              const missed = planned.filter(({ state }) => state === 'missed');
              return (
                <li key={hole ?? ''} className="acts">
                  <span>
                    <b>{hole === null ? 'Without a hole' : `Hole ${hole}`}:</b> {planned.length - open.length}{' '}
                    taken, {counted(open.length, 'sample')} not taken yet
                    {missed.length === 0 ? null : (
                      <>
                        , <Mark name="close" size={15} /> {missed.map(({ row }) => row.sample).join(', ')} not
                        taken when the hole ended
                      </>
                    )}
                  </span>
                  {open.length === 0 ? null : (
                    <Button
                      mark="save"
                      onClick={() =>
                        navigate('Describe', {
                          view: 'labels',
                          of: 'planned',
                          ...(hole === null ? {} : { hole }),
                        })
                      }
                    >
                      Print labels{hole === null ? '' : ` of ${hole}`}
                    </Button>
                  )}
                </li>
              );
            })}
          </ul>
        )
      }
    />
  );
}
