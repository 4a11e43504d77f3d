/** The scale that two marks give, in numbers, and what of the core is not on the picture. */
import { type PictureSize, type Strip, stripPlace } from '@stillstand/output/photographs';
import { Mark, printed } from '../../../parts/index.ts';
import { writtenLength } from '../length.ts';
import { beyondPicture, turnWords } from './facts.ts';

export function StripFacts({ strip, size }: { strip: Strip; size: PictureSize | null }) {
  const place = stripPlace(strip.mark_1, strip.mark_2);
  if (place === null) return null;
  const px_per_mm = place.px_per_m / 1000;
  const beyond = size === null ? null : beyondPicture(strip, size);
  return (
    <>
      <dl className="placed">
        <div>
          <dt>scale</dt>
          <dd className="value">{printed(px_per_mm, px_per_mm < 0.95 ? 2 : px_per_mm < 10 ? 1 : 0)} px/mm</dd>
        </div>
        <div>
          <dt>rotation to upright</dt>
          <dd className="value">{turnWords(place.down)}</dd>
        </div>
        <div>
          <dt>strip</dt>
          <dd className="value">
            {writtenLength(strip.top_m, 'm')} to {writtenLength(strip.bottom_m, 'm')}
          </dd>
        </div>
      </dl>
      {beyond === null ? null : (
        <p className="caution-line">
          <Mark name="close" size={18} /> {beyond}
        </p>
      )}
    </>
  );
}
