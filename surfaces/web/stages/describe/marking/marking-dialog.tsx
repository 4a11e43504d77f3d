/** Setting the scale of a picture: two marks of known depth, and the core they cut out, over the whole screen. */
import type { LengthOptions } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Button, Mark, useUnsaved, WholeDialog } from '../../../parts/index.ts';
import type { PlacedPhoto } from '../photos.ts';
import { isPicture, LARGE_PX, usePictures } from '../pictures.ts';
import { doubtsOf, faultsOf, type Marking, markingOf, nextStep, stripOf } from './marking.ts';
import { MarkingFields } from './marking-fields.tsx';
import { MarkingPicture } from './marking-picture.tsx';
import { StripFacts } from './strip-facts.tsx';
import './marking.css';

export function MarkingDialog({
  photo,
  options,
  usualWidth,
  onKeep,
  onClose,
}: {
  photo: PlacedPhoto;
  options: LengthOptions;
  /** As it would be typed: the width of the core to begin with. */
  usualWidth: string;
  onKeep: (marking: Marking) => void;
  onClose: () => void;
}) {
  const { cells } = photo.row;
  const file = cells['file']?.trim() ?? '';
  const picture = usePictures([file], LARGE_PX).get(file) ?? 'reading';
  const [marking, setMarking] = useState<Marking>(() => {
    const kept = markingOf(cells);
    return kept.width === '' ? { ...kept, width: usualWidth } : kept;
  });
  const [isTouched, setTouched] = useState(false);
  useUnsaved(isTouched);
  const change = (by: (before: Marking) => Marking): void => {
    setTouched(true);
    setMarking(by);
  };
  const strip = stripOf(marking, photo, options);
  const faults = faultsOf(marking, options);
  const step = nextStep(marking, options);
  return (
    <WholeDialog
      title={`Set scale: ${photo.core.name}`}
      onClose={onClose}
      foot={
        <>
          <Button onClick={onClose}>Cancel</Button>
          <Button kind="main" disabled={strip === null} onClick={() => onKeep(marking)}>
            Keep scale
          </Button>
        </>
      }
    >
      <div className="marking">
        {isPicture(picture) ? (
          <MarkingPicture
            picture={picture}
            marking={marking}
            strip={strip}
            photo={photo}
            options={options}
            onChange={change}
          />
        ) : (
          <p className="marking-picture">
            {picture === 'reading' ? 'Opening the picture…' : 'The picture cannot be shown on this device.'}
          </p>
        )}
        <div className="marking-side">
          <p className="marking-step" role="status">
            {step ?? 'Compare the decimetres with the tape. Drag a mark or a side of the core to correct it.'}
          </p>
          <MarkingFields marking={marking} faults={faults} options={options} onChange={change} />
          {strip === null || !isPicture(picture) ? null : <StripFacts strip={strip} size={picture} />}
          {isPicture(picture)
            ? doubtsOf(marking, strip, photo.core, picture, options).map((doubt) => (
                <p key={doubt} className="caution-line">
                  <Mark name="close" size={18} /> {doubt}
                </p>
              ))
            : null}
        </div>
      </div>
    </WholeDialog>
  );
}
