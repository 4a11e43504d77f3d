/** Around every stage: the stages at the side or the foot, the page head, and the tools of the whole campaign. */

import { type ReactNode, useEffect, useState } from 'react';
import { useComputation } from '../../compute/index.ts';
import { t } from '../../language/index.ts';
import { Button, Mark, Sheet } from '../../parts/index.ts';
import { useStore } from '../../store/index.ts';
import type { Stage } from '../stage.ts';
import { ComputationStopped } from './computation-state.tsx';
import './frame.css';
import { currentRoute, useNavigate, writeRoute } from '../route.ts';
import type { ProblemPlace, RowPlace } from '../rows/places.ts';
import { ProblemsSheet } from '../rows/problems-sheet.tsx';
import { EarlierBar } from './earlier-bar.tsx';
import { HelpSheet } from './help-sheet.tsx';
import { SaveSheet } from './save-sheet.tsx';
import { StoreNews } from './store-news.tsx';
import { KeptWords, ToolList, type ToolName } from './tools.tsx';

export function Frame({
  stages,
  current,
  titlePlace,
  asidePlace,
  hasOwnTitle,
  onOpenRow,
  children,
}: {
  stages: readonly Stage[];
  current: Stage | null;
  titlePlace: (element: HTMLElement | null) => void;
  asidePlace: (element: HTMLElement | null) => void;
  hasOwnTitle: boolean;
  onOpenRow: (place: RowPlace) => void;
  children: ReactNode;
}) {
  const store = useStore();
  const { problems } = useComputation();
  const [sheet, setSheet] = useState<ToolName | 'menu' | 'stages' | null>(null);
  const close = (): void => setSheet(null);
  const navigate = useNavigate();
  useShortcuts(stages, setSheet);
  const openPlace = (place: ProblemPlace): void => {
    if (place.row !== null) onOpenRow(place.row);
    else {
      close();
      navigate(place.stage, { table: place.table });
    }
  };
  const openTool = (tool: ToolName): void => {
    if (tool !== 'history') setSheet(tool);
    else {
      close();
      navigate('history');
    }
  };
  const name = store.name() === '' ? t`Campaign without a name` : store.name();
  useEffect(() => {
    document.title = `${current === null ? '' : `${current.name}, `}${name} – Stillstand`;
  }, [current, name]);
  const address = (stage: Stage): string =>
    writeRoute({ campaign: store.id, stage: stage.name.toLowerCase(), params: {} });
  const links = stages.map((stage) => (
    <a
      key={stage.name}
      href={address(stage)}
      aria-current={stage === current ? 'page' : undefined}
      onClick={close}
    >
      {stage.name}
    </a>
  ));
  const grave = problems.filter((p) => p.severity === 'danger' || p.severity === 'error').length;

  return (
    <div className="frame">
      <nav className="skip" aria-label={t`On this page`}>
        <a href={location.hash} onClick={toPage}>{t`Skip to the page`}</a>
      </nav>
      <nav className="rail" aria-label={t`Stages`}>
        <a className="mark-of" href="#/">
          Stillstand
        </a>
        <div className="stages">{links}</div>
        <div className="rail-tools">
          {/* The tools stand on the foot of the rail and the words grow upwards, so that no tool moves from under a finger. */}
          <KeptWords onSave={() => setSheet('save')} />
          <ToolList compact grave={grave} count={problems.length} onOpen={openTool} />
        </div>
      </nav>
      <header className="head">
        <button
          type="button"
          className="stage-name"
          aria-haspopup="dialog"
          onClick={() => setSheet('stages')}
        >
          {current?.name ?? t`Stages`} <Mark name="down" size={14} />
        </button>
        <div className="title">
          <h1 hidden={hasOwnTitle}>{name}</h1>
          <div ref={titlePlace} className="own-title" />
        </div>
        <div ref={asidePlace} className="aside" />
        <Button
          kind="bare"
          mark={grave > 0 ? 'stop' : 'menu'}
          className={grave > 0 ? 'menu-button grave' : 'menu-button'}
          aria-haspopup="dialog"
          aria-label={grave > 0 ? t`Menu, ${grave} problems` : t`Menu`}
          onClick={() => setSheet('menu')}
        />
      </header>
      {store.earlier !== null ? (
        <EarlierBar />
      ) : store.readOnly ? (
        <p className="read-only" role="status">
          <Mark name="note" size={18} />{' '}
          {t`Read only: a newer Stillstand wrote this campaign, or its package cannot be read.`}
        </p>
      ) : null}
      <main className="page" id="page" tabIndex={-1}>
        <StoreNews />
        <ComputationStopped />
        {children}
      </main>
      <nav className="tabs" aria-label={t`Stages, at the foot`}>
        {links}
      </nav>
      {sheet === 'menu' ? (
        <Sheet title={name} onClose={close}>
          <ToolList grave={grave} count={problems.length} onOpen={openTool} />
          <KeptWords onSave={() => setSheet('save')} />
          <p>
            <a href="#/">{t`All campaigns on this device`}</a>
          </p>
        </Sheet>
      ) : null}
      {sheet === 'stages' ? (
        <Sheet title={t`Stages`} onClose={close}>
          <nav className="stage-list" aria-label={t`All stages`}>
            {links}
          </nav>
        </Sheet>
      ) : null}
      {sheet === 'problems' ? (
        <ProblemsSheet problems={problems} rowsOf={store.rows} onOpen={openPlace} onClose={close} />
      ) : null}
      {sheet === 'help' ? <HelpSheet stages={stages} onClose={close} /> : null}
      {sheet === 'save' ? <SaveSheet onClose={close} /> : null}
    </div>
  );
}

function toPage(event: React.MouseEvent): void {
  event.preventDefault();
  document.getElementById('page')?.focus();
}

/** Alt and a digit: a stage. Ctrl Z, Ctrl Shift Z: undo, redo. Ctrl S: a copy. F1: help. Alt P: problems. */
function useShortcuts(stages: readonly Stage[], open: (sheet: ToolName) => void): void {
  const store = useStore();
  const navigate = useNavigate();
  useEffect(() => {
    const listen = (event: KeyboardEvent): void => {
      const isCommand = event.ctrlKey || event.metaKey;
      const key = event.key.toLowerCase();
      const isTyping = event.target instanceof HTMLElement && event.target.matches('input, textarea, select');
      const stage =
        event.altKey && /^Digit[1-9]$/.test(event.code) ? stages[Number(event.code.slice(5)) - 1] : undefined;
      if (stage !== undefined) navigate(stage.name);
      else if (isCommand && key === 's') {
        if (store.earlier === null) open('save');
      } else if (event.key === 'F1') open('help');
      else if (event.altKey && event.code === 'KeyP') open('problems');
      else if (isCommand && key === 'z' && !isTyping && !store.readOnly) {
        if (event.shiftKey) store.redo();
        else store.undo();
      } else return;
      event.preventDefault();
    };
    addEventListener('keydown', listen);
    return () => removeEventListener('keydown', listen);
  }, [stages, open, store, navigate]);
  // A new stage is read from its beginning.
  const stage = currentRoute().stage;
  useEffect(() => {
    void stage;
    scrollTo(0, 0);
  }, [stage]);
}
