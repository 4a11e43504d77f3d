/** Amendments of one reading that differ, each a press from being the one that counts. */
import { columnName } from '@stillstand/campaign/tables';
import { t } from '../../language/index.ts';
import { Button } from '../button.tsx';
import { Mark } from '../mark.tsx';
import './amendment-choice.css';

export interface Offered {
  /** Null: the reading withdrawn. */
  row_id: string | null;
  isFirst: boolean;
  says: readonly { column: string; text: string }[];
  who: string;
}

export function AmendmentChoice({
  choices,
  disabled,
  onChoose,
}: {
  choices: readonly Offered[];
  disabled: boolean;
  onChoose: (row_id: string | null) => void;
}) {
  return (
    <section className="amendment-choice" aria-label={t`Amendments that differ`}>
      <p role="alert">
        <Mark name="close" size={20} />{' '}
        {t`Its amendments differ. Until one is chosen, the reading is not used.`}
      </p>
      <ul>
        {choices.map((choice) => (
          <li key={choice.row_id ?? 'withdrawn'}>
            <Button
              mark={choice.row_id === null ? 'rejected' : choice.isFirst ? 'reading' : 'amended'}
              disabled={disabled}
              onClick={() => onChoose(choice.row_id)}
            >
              {choice.row_id === null ? (
                t`Withdraw reading`
              ) : (
                <span>
                  {choice.isFirst ? t`Use original: ` : t`Use `}
                  {choice.says.map(({ column, text }, i) => (
                    <span key={column}>
                      {i === 0 ? '' : ', '}
                      {columnName('', column)} <b>{text === '' ? 'blank' : text.replace(/^-(?=\d)/, '−')}</b>
                    </span>
                  ))}
                  {choice.who === '' ? null : <small> {choice.who}</small>}
                </span>
              )}
            </Button>
          </li>
        ))}
      </ul>
      <p className="quiet">{t`Everything stays in the record, with who chose and when.`}</p>
    </section>
  );
}
