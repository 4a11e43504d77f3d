/** Whom to call and where the rescuers must come, before anything is typed. */
import { type Emergency, LOCAL_NUMBER } from '@stillstand/campaign/holes';
import { Mark } from '../../../parts/index.ts';
import './emergency-plate.css';

export function EmergencyPlate({ emergency }: { emergency: Emergency }) {
  const { contact, ashore, positions } = emergency;
  return (
    <section className="emergency" role="alert" aria-label="Emergency">
      <p className="word">
        <Mark name="stop" size={32} /> Emergency
      </p>
      <dl>
        <dt>Call</dt>
        <dd>
          {contact === null ? (
            <>
              <strong>No emergency contact is written in Plan.</strong>
              <span>{LOCAL_NUMBER}</span>
            </>
          ) : (
            <>
              <strong>{contact.words}</strong>
              <span>{contact.source}</span>
            </>
          )}
        </dd>
        {ashore === null ? null : (
          <>
            <dt>Ashore</dt>
            <dd>
              <strong className="second">{ashore.words}</strong>
              <span>{ashore.source}</span>
            </dd>
          </>
        )}
        <dt>We are at</dt>
        {positions.length === 0 ? (
          <dd>
            <strong>The position is not known here.</strong>
            <span>
              Neither the day, the hole nor its site has one. Read it off a receiver or a telephone.
            </span>
          </dd>
        ) : (
          positions.map(({ words, source }) => (
            <dd key={source}>
              <strong>
                <Position words={words} />
              </strong>
              <span>{source}</span>
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
