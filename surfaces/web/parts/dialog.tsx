import { type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { t } from '../language/index.ts';
import { Button } from './button.tsx';
import './dialog.css';
import { useUnsaved } from './fields/unsaved.ts';

interface DialogProps {
  title: string;
  onClose: () => void;
  children: ReactNode;
  /** Buttons at its foot. */
  foot?: ReactNode;
  /** Done instead on Escape and a press outside it, which come by mistake. */
  onLeave?: () => void;
}

/** Asks or shows one thing over the page; Escape, the cross or a press outside it closes it. Draw it only while it is open. */
export const Dialog = (props: DialogProps) => <Modal {...props} kind="dialog" />;

/** The same, risen from the edge: at the foot of a phone, at the right of a wide screen. */
export const Sheet = (props: DialogProps) => <Modal {...props} kind="dialog sheet" />;

/** The same over the whole screen, for a picture that needs all of it. */
export const WholeDialog = (props: DialogProps) => <Modal {...props} kind="dialog whole" />;

/** A dialog of fields and one action, pressed at its foot or by Enter in a field. */
export function FormDialog({
  title,
  action,
  isReady,
  says = null,
  below = null,
  onSubmit,
  onClose,
  children,
}: {
  title: string;
  /** What is done, as its button says it. */
  action: string;
  isReady: boolean;
  /** At the foot, before the button: what is wanting. */
  says?: ReactNode;
  /** Under the fields. */
  below?: ReactNode;
  onSubmit: () => void;
  onClose: () => void;
  children: ReactNode;
}) {
  const form = useId();
  const [isTouched, setTouched] = useState(false);
  const [isAsked, ask] = useState(false);
  useUnsaved(isTouched);
  return (
    <Dialog
      title={title}
      onClose={onClose}
      // A wet sleeve outside the form, or Escape, discards nothing that was typed.
      onLeave={() => (isTouched ? ask(true) : onClose())}
      foot={
        <>
          {says}
          {isAsked ? (
            <p className="says-why" role="alert">
              {t`Not added yet: what is typed is lost when this is closed.`}
            </p>
          ) : null}
          <Button kind="main" type="submit" form={form} disabled={!isReady}>
            {action}
          </Button>
        </>
      }
    >
      <form
        id={form}
        className="fields"
        onInput={() => {
          setTouched(true);
          ask(false);
        }}
        onSubmit={(event) => {
          event.preventDefault();
          onSubmit();
        }}
      >
        {children}
      </form>
      {below}
    </Dialog>
  );
}

function Modal({ title, onClose, children, foot, onLeave = onClose, kind }: DialogProps & { kind: string }) {
  const dialog = useRef<HTMLDialogElement>(null);
  const titleId = useId();
  useEffect(() => {
    const shown = dialog.current;
    if (shown === null) return;
    if (!shown.open) shown.showModal();
    return () => shown.close();
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: Escape does the same, by the dialog itself
    <dialog
      ref={dialog}
      className={kind}
      aria-labelledby={titleId}
      onCancel={(event) => {
        event.preventDefault();
        onLeave();
      }}
      // Some browsers close it on a second Escape without asking.
      onClose={() => {
        if (dialog.current?.open === false) onClose();
      }}
      onClick={(event) => {
        if (event.target === dialog.current) onLeave();
      }}
    >
      <header>
        <h2 id={titleId}>{title}</h2>
        <Button kind="bare" mark="cross" aria-label={t`Close`} onClick={onClose} />
      </header>
      <div className="body">{children}</div>
      {foot === undefined ? null : <footer>{foot}</footer>}
    </dialog>
  );
}
