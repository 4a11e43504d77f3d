/** Date: determinations with their calibrated ages, the chosen one large and as it is typed; tables of laboratories are imported. */
import './date.css';
import { ImportPage } from '../../import/index.ts';
import { Button } from '../../parts/index.ts';
import { HeadAside, type StageProps, useNavigate } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { DepthPage } from './against-depth/depth-page.tsx';
import { DatesPage } from './dates-page.tsx';

export function Stage({ params }: StageProps) {
  const store = useStore();
  const navigate = useNavigate();
  const isImporting = params['view'] === 'import';
  const isAgainst = params['view'] === 'depth';
  return (
    <>
      <HeadAside>
        {isImporting ? null : (
          <Button onClick={() => navigate('Date', isAgainst ? {} : { view: 'depth' })}>
            {isAgainst ? 'All dates' : 'Ages against depth'}
          </Button>
        )}
        {store.readOnly || isImporting || isAgainst ? null : (
          <>
            <Button mark="open" onClick={() => navigate('Date', { view: 'import' })}>
              Import lab results
            </Button>
            <AddDate />
          </>
        )}
      </HeadAside>
      {isImporting ? (
        <ImportPage as="dates" onDone={() => navigate('Date')} />
      ) : isAgainst ? (
        <DepthPage params={params} />
      ) : (
        <DatesPage params={params} />
      )}
    </>
  );
}

/** A determination by hand: it is there at once, with what most others have, and is filled in where it stands. */
function AddDate() {
  const store = useStore();
  const navigate = useNavigate();
  return (
    <Button
      kind="main"
      mark="plus"
      onClick={() => {
        const row = store.addRow('determinations', {
          method: 'radiocarbon',
          calibration_curve: commonest(
            store.rows('determinations').map((r) => r.cells['calibration_curve'] ?? ''),
          ),
          status: 'accepted',
        });
        navigate('Date', { row });
      }}
    >
      Add a date
    </Button>
  );
}

function commonest(words: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const word of words) if (word !== '') counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? '';
}
