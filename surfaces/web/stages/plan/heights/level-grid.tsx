/** The grid of the level book: lines under their heads, sums at the foot; the arrows and Enter move through its cells. */
import { useId } from 'react';
import './level-grid.css';
import { type GridProps, LevelLine } from './level-line.tsx';
import { LevelSums } from './level-sums.tsx';

export function LevelGrid(props: GridProps) {
  const { lines, preview, method } = props;
  const stationsId = useId();
  const isRise = method === 'rise-and-fall';
  const heads = [
    'backsight',
    'intersight',
    'foresight',
    ...(isRise ? ['rise', 'fall'] : ['collimation']),
    'height',
    'adjusted',
    'distance',
  ];
  const isAdjusted = (preview.loop?.closures.length ?? 0) > 0;
  return (
    <div className="grid-scroll">
      <table className="cell-grid level-grid">
        <caption>
          metres
          {preview.datum === '' || preview.datum === 'as stated' ? '' : `; heights above ${preview.datum}`}
        </caption>
        <thead>
          <tr>
            <th scope="col">station</th>
            {heads.map((head) => (
              <th key={head} scope="col" className="number">
                {head}
              </th>
            ))}
            <th scope="col">note</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line, i) => (
            <LevelLine
              key={line.key}
              {...props}
              line={line}
              at={i}
              stationsId={stationsId}
              isAdjusted={isAdjusted}
            />
          ))}
        </tbody>
        <LevelSums preview={preview} isRise={isRise} />
      </table>
      <datalist id={stationsId}>
        {props.stations.map((label) => (
          <option key={label} value={label} />
        ))}
      </datalist>
    </div>
  );
}
