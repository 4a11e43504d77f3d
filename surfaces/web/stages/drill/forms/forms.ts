/**
 * What is entered for each action: its fields in the order a hand reads them, what they are, what usually stands
 * there, and the cells they become. Nothing but the few lengths without which a reading says nothing is asked for;
 * whatever is blank stays blank.
 */

import type { HoleState, RowSource } from '@stillstand/campaign/holes';
import { schemas } from '@stillstand/campaign/tables';
import { t } from '../../../language/index.ts';
import { driveForm, respondForm, stuckForm } from './drive-forms.ts';
import { closeForm, secondHoleForm } from './end-forms.ts';
import {
  breakdownForm,
  callInForm,
  handOverForm,
  injuryForm,
  instrumentForm,
  noteForm,
  weatherForm,
} from './event-forms.ts';
import { choice, type EntryForm, type FormName, text } from './field.ts';
import { gearForm, ratingForm } from './gear-forms.ts';
import { piecesForm } from './pieces.ts';
import { pushForm } from './push-form.ts';
import { readers } from './readers.ts';
import {
  fillForm,
  groundForm,
  markForm,
  marksForm,
  soundForm,
  waterForm,
  zeroForm,
} from './reading-forms.ts';
import { cableForm, layOutForm, runForm } from './run-forms.ts';
import { watersForm } from './said-forms.ts';
import { addForm, lostForm, pullForm, tightForm } from './string-forms.ts';

/** The form of an action, filled with what usually stands there. */
export function formFor(name: FormName, now: HoleState, source: RowSource): EntryForm {
  const hole = now.row.hole;
  const base = { name, fixed: { hole }, caution: null };
  switch (name) {
    case 'ground':
      return groundForm(base, now);
    case 'add':
      return addForm(base, now, source);
    case 'tighten':
    case 'loose':
      return tightForm(name, base, now);
    case 'drive':
      return driveForm(base, now);
    case 'stuck':
      return stuckForm(base, now);
    case 'respond':
      return respondForm(base, now);
    case 'fill':
      return fillForm(base, now, source);
    case 'sound':
      return soundForm(base, now);
    case 'water':
      return waterForm(base, now);
    case 'mark':
      return markForm(base, now);
    case 'marks':
      return marksForm(base);
    case 'zero':
      return zeroForm(base);
    case 'run':
      return runForm(base, now, source);
    case 'cable':
      return cableForm(base, now);
    case 'lay_out':
      return layOutForm(base, now);
    case 'pieces':
      return piecesForm(base, now, source);
    case 'push':
      return pushForm(base, source, now);
    case 'answer':
      return {
        ...base,
        title: t`Check`,
        verb: t`Record the answer`,
        table: 'checks',
        fields: [
          choice(
            'answer',
            t`Answer`,
            schemas.checks.columns.answer.choices,
            t`What was asked before the first joint, and what was found.`,
            '',
          ),
        ],
      };
    case 'waters':
      return watersForm(base, now);
    case 'gear':
      return gearForm(base, now);
    case 'rating':
      return ratingForm(base, now);
    case 'pull':
      return pullForm(base, now);
    case 'lost':
      return lostForm(base, now);
    case 'note':
      return noteForm(base);
    case 'breakdown':
      return breakdownForm(base);
    case 'weather':
      return weatherForm(base);
    case 'injury':
      return injuryForm(base);
    case 'hand_over':
      return handOverForm(base, now, source);
    case 'call_in':
      return callInForm(base, source);
    case 'instrument':
      return instrumentForm(base);
    case 'crew':
      return {
        ...base,
        title: t`Crew change`,
        verb: t`Go on`,
        table: null,
        fields: [
          {
            ...text('by', t`Who reads now`, t`A role or initials; goes with every reading from here.`),
            ready: readers(source),
            needed: true,
          },
        ],
      };
    case 'tide':
      return {
        ...base,
        title: t`Stop for the tide`,
        verb: t`Leave the hole`,
        caution: t`Leave in time. The string can stay; people cannot.`,
        table: null,
        fields: [text('note', t`How it is left`, t`Collar closed, string secured, what hangs in it.`)],
      };
    case 'close':
      return closeForm(base, now);
    case 'second_hole':
      return secondHoleForm(base, now);
  }
}
