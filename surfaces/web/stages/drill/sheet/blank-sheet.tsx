/**
 * The sheet for when the tablet dies: printed beforehand, filled by hand, typed in afterwards. One line is one reading
 * in the order it was taken, whatever it is; what each kind of reading needs stands at the top of its columns.
 */
import { t } from '../../../language/index.ts';
import './blank-sheet.css';
import { m2Least } from '../tape/lengths.ts';

const KINDS = [
  ['G', t`ground`, t`below reference`, t`cause of change`, '', ''],
  ['P', t`push`, t`from`, t`to`, t`recovered`, ''],
  ['H', t`shoe`, t`label`, t`length`, t`tight?`, t`pulled / left / lost`],
  ['J', t`joint`, t`label`, t`length`, t`tight?`, t`pulled / left / lost`],
  ['D', t`drive`, t`stick-up before`, t`stick-up after`, t`time, s`, t`ended by`],
  ['W', t`water put in`, t`to water before`, t`to water after`, t`litres`, t`fresh / sea`],
  ['S', t`sounding`, t`to sediment`, t`to water inside`, t`water outside`, t`stick-up`],
  ['R', t`run`, t`cable, touched`, t`cable, lowest`, t`strokes`, t`recovered`],
] as const;
/** As many as stand on one A4 page with a hand's writing between them. */
const LINES = 26;

/** Which kinds of reading a hole of this make has. */
const BY_STRING = 'GHJDWSR';
const BY_HAND = 'GP';

export function BlankSheet({
  hole,
  site,
  byString,
  margin_m,
}: {
  hole: string;
  site: string;
  byString: boolean;
  margin_m: number;
}) {
  return (
    <section className="blank-sheet" aria-hidden="true">
      <header>
        <h1>
          {t`Hole`} {hole}
        </h1>
        <p>
          {site}
          <br />
          {t`date ____________ reads ____________ sheet ____ of ____`}
        </p>
      </header>
      <table className="kinds">
        <tbody>
          {KINDS.filter(([letter]) => (byString ? BY_STRING : BY_HAND).includes(letter)).map(
            ([letter, name, ...columns]) => (
              <tr key={letter}>
                <th scope="row">{letter}</th>
                <th scope="row">{name}</th>
                {columns.map((c, i) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: four fixed columns, some of them empty
                  <td key={i}>{c}</td>
                ))}
              </tr>
            ),
          )}
        </tbody>
      </table>
      <p className="sheet-says">
        {t`One line a reading, in the order it is taken. Write the unit: 3.05 m, 305 cm, 10 ft, 9 ft 11 1/2 in. ${
          byString
            ? t`Lengths down the string are from the collar; ground and water outside are from the reference. Cross out with one line and write next to it. The sampler stops ${m2Least(margin_m)} m above the shoe: shoe depth = sum of joints − make-up loss.`
            : t`Depths of pushes are below the ground; the ground is below the reference. Cross out with one line and write next to it.`
        }`}
      </p>
      <table className="lines">
        <thead>
          <tr>
            <th scope="col">{t`no.`}</th>
            <th scope="col">{t`time`}</th>
            <th scope="col">{t`kind`}</th>
            <th scope="col">{t`first`}</th>
            <th scope="col">{t`second`}</th>
            <th scope="col">{t`third`}</th>
            <th scope="col">{t`fourth`}</th>
            <th scope="col">{t`note`}</th>
          </tr>
        </thead>
        <tbody>
          {Array.from({ length: LINES }, (_, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: empty lines have nothing but their place
            <tr key={i}>
              <td>{i + 1}</td>
              <td />
              <td />
              <td />
              <td />
              <td />
              <td />
              <td />
            </tr>
          ))}
        </tbody>
      </table>
      <p className="sheet-says">
        {byString
          ? t`Hands clear of the cable. Nobody under the load. Every thread confirmed tight before it goes below ground. String full before anything is lifted.`
          : t`Locate what is buried first. Leave the place before the tide cuts it off.`}
      </p>
    </section>
  );
}
