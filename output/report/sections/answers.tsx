/** What papers ask of every curve: the highest stand, the fastest and slowest stretch, the acceleration. */
import { traceId } from '@stillstand/campaign/results';
import { answerInWords } from '@stillstand/output/words';
import { type CurveResult, questionText, usualAnswers } from '@stillstand/science/curve';
import { Caution, ConvergedCell, ConvergedHead } from '../marks.tsx';
import { each } from '../quantity.tsx';
import { From } from '../where/from.tsx';

export function Answers({ curve }: { curve: CurveResult }) {
  const answers = usualAnswers(curve).map((answer) => ({ ...answerInWords(answer), answer }));
  if (answers.length === 0) return null;
  return (
    <>
      <table className="whole">
        <caption>
          Highest stand, fastest and slowest stretch, acceleration: from the draws of the curve
        </caption>
        <thead>
          <tr>
            <th>asked</th>
            <th>answer</th>
            <ConvergedHead {...curve.diagnostics} />
          </tr>
        </thead>
        <tbody>
          {each(answers, ({ title, main, more, doubts, answer }) => (
            <tr>
              <td>{title}</td>
              <td>
                {main.before}{' '}
                <From id={traceId.answer(questionText(answer.question))}>
                  <b className="nb">{main.number}</b>
                </From>{' '}
                {main.after} {more.join(' ')}
                {each(doubts, (doubt) => (
                  <span className="doubt">
                    {' '}
                    <Caution /> {doubt}
                  </span>
                ))}
              </td>
              <ConvergedCell {...curve.diagnostics} />
            </tr>
          ))}
        </tbody>
      </table>
      <p className="q">
        Each is of every draw by itself: where dates are few, the extreme of a draw lies beyond that of the
        median.
      </p>
    </>
  );
}
