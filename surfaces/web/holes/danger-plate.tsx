/** A safety question answered no: the hazard, what to do, who said so and when. It stays until answered otherwise. */

import { byWords, type SafetyCheck } from '@stillstand/campaign/holes';
import { t, translated } from '../language/index.ts';
import { Button, Mark } from '../parts/index.ts';
import './danger-plate.css';

export interface Hazard {
  check: SafetyCheck;
  /** The hole it is of, where more than one is in sight. */
  hole?: string | undefined;
}

export function DangerPlate({
  hazards,
  day,
  onAnswer,
  opensAll = false,
}: {
  hazards: readonly Hazard[];
  /** `2024-03-05`: answers of another day are shown with theirs. */
  day: string;
  onAnswer?: ((hazard: Hazard) => void) | undefined;
  /** Answering opens the whole list, so that one key serves all hazards. */
  opensAll?: boolean;
}) {
  const [first, ...others] = hazards;
  if (first === undefined) return null;
  return (
    <section className="danger-plate" role="alert" aria-label={t`Danger`}>
      <p className="word">
        <Mark name="stop" size={32} /> {t`Danger`}
      </p>
      <One hazard={first} day={day} onAnswer={onAnswer} />
      {others.length === 0 ? null : (
        <ul>
          {others.map((hazard) => (
            <li key={`${hazard.hole ?? ''} ${hazard.check.check}`}>
              <One hazard={hazard} day={day} onAnswer={opensAll ? undefined : onAnswer} />
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function One({
  hazard,
  day,
  onAnswer,
}: {
  hazard: Hazard;
  day: string;
  onAnswer: ((hazard: Hazard) => void) | undefined;
}) {
  const { check, hole } = hazard;
  return (
    <>
      <h2 className="hazard">
        {translated(check.hazard)}
        {hole === undefined ? '' : t`, hole ${hole}`}
      </h2>
      <p className="act-now">{translated(check.act)}</p>
      <div className="who">
        <p>{t`“${translated(check.question)}”: no, ${translated(byWords(check.given!, day))}. This stays until answered otherwise.`}</p>
        {onAnswer === undefined ? null : (
          <Button
            onClick={() => onAnswer(hazard)}
            aria-label={t`Answer again: ${translated(check.question)}`}
          >{t`Answer again`}</Button>
        )}
      </div>
    </>
  );
}
