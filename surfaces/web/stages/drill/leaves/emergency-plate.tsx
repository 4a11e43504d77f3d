/** Whom to call and where the rescuers must come, before anything is typed. */

import { type Emergency, LOCAL_NUMBER } from '@stillstand/campaign/holes';
import { t, translated } from '../../../language/index.ts';
import { Mark } from '../../../parts/index.ts';
import './emergency-plate.css';

export function EmergencyPlate({ emergency }: { emergency: Emergency }) {
  const { contact, ashore, positions } = emergency;
  return (
    <section className="emergency" role="alert" aria-label={t`Emergency`}>
      <p className="word">
        <Mark name="stop" size={32} /> {t`Emergency`}
      </p>
      <dl>
        <dt>{t`Call`}</dt>
        <dd>
          {contact === null ? (
            <>
              <strong>{t`No emergency contact is written in Plan.`}</strong>
              <span>{translated(LOCAL_NUMBER)}</span>
            </>
          ) : (
            <>
              <strong>{contact.words}</strong>
              <span>{translated(contact.source)}</span>
            </>
          )}
        </dd>
        {ashore === null ? null : (
          <>
            <dt>{t`Ashore`}</dt>
            <dd>
              <strong className="second">{ashore.words}</strong>
              <span>{translated(ashore.source)}</span>
            </dd>
          </>
        )}
        <dt>{t`We are at`}</dt>
        {positions.length === 0 ? (
          <dd>
            <strong>{t`The position is not known here.`}</strong>
            <span>{t`Neither the day, the hole nor its site has one. Read it off a receiver or a telephone.`}</span>
          </dd>
        ) : (
          positions.map(({ words, source }) => (
            <dd key={source}>
              <strong>
                <Position words={words} />
              </strong>
              <span>{translated(source)}</span>
            </dd>
          ))
        )}
      </dl>
    </section>
  );
}

/** Latitude and longitude, each in one piece: read out over a radio, a broken one is misheard. */
const Position = ({ words }: { words: string }) =>
  words.split(', ').map((part, i, parts) => (
    <span key={part} className="part">
      {part}
      {i < parts.length - 1 ? ', ' : ''}
    </span>
  ));
