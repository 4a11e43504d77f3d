/**
 * What is asked before work begins, in Plan and in Drill alike. Every question is put so that yes is safe. Common
 * practice, no source; local codes, permits and the makers' manuals take precedence.
 */
export interface SafetyQuestion {
  /** Stable name, in the column `check`; of a question of the crew's own never written. */
  check: string;
  /** As asked; the column `question`. */
  question: string;
  why: string;
  /** Asked again of each hole every day, or once a day. */
  of: 'hole' | 'day';
  /** What a no is: someone can be hurt or gear lost (danger), or the record suffers (caution). */
  no: 'danger' | 'caution';
  /** What is wrong when it is answered no. */
  hazard: string;
  /** What to do about it, in full sentences. */
  act: string;
  /** The same as a verb and a noun, for the action. */
  deal: string;
  /** How older campaigns put it, in small letters. */
  was: readonly string[];
}

export const SAFETY_QUESTIONS: readonly SafetyQuestion[] = [
  {
    check: 'services',
    question: 'Buried services located',
    why: 'ask the owners; locate before anything is driven',
    of: 'hole',
    no: 'danger',
    hazard: 'Buried services not located',
    act: 'Drive nothing. Have the owners locate their cables and pipes, or move the hole.',
    deal: 'Locate buried services',
    was: ['services located'],
  },
  {
    check: 'overhead',
    question: 'Mast clear of overhead lines',
    why: 'mast and a pipe held upright stay outside the distance the law asks for',
    of: 'hole',
    no: 'danger',
    hazard: 'Overhead line within reach of the mast',
    act: 'Lower the mast and keep it down. Move the hole, or have the owner switch off the line and confirm it.',
    deal: 'Keep the mast down',
    was: ['overhead lines cleared', 'clearance to overhead lines checked'],
  },
  {
    check: 'reference',
    question: 'Reference levelled',
    why: 'peg or plate that does not move',
    of: 'hole',
    no: 'caution',
    hazard: 'Reference not levelled',
    act: 'Level it before you leave: without it no depth of this hole has an elevation.',
    deal: 'Level the reference',
    was: [],
  },
  {
    check: 'joints',
    question: 'Joints measured and numbered',
    why: 'end to end, threads included; paint the number on',
    of: 'hole',
    no: 'caution',
    hazard: 'Joints not measured or numbered',
    act: 'Measure each joint before lifting it: without its length the depth of the shoe is not known.',
    deal: 'Measure the joints',
    was: [],
  },
  {
    check: 'permits',
    question: 'Permits seen and carried',
    why: 'land, coast, nature, heritage, services',
    of: 'day',
    no: 'danger',
    hazard: 'Permits not seen',
    act: 'Do not start. Read in the permits what is buried here and where work is forbidden.',
    deal: 'Read the permits',
    was: [],
  },
  {
    check: 'leave_by',
    question: 'Leave-by time known to all',
    why: 'tide, dusk, weather; the earliest counts',
    of: 'day',
    no: 'danger',
    hazard: 'Leave-by time not known to all',
    act: 'Stop and agree it with everyone: the earliest of tide, dusk and weather.',
    deal: 'Agree the leave-by time',
    was: ['leave by known to all', 'leave by known', 'departure time known to all'],
  },
  {
    check: 'ashore',
    question: 'Shore contact agreed',
    why: 'who, call-in time, action if no call',
    of: 'day',
    no: 'danger',
    hazard: 'Nobody ashore expects a call',
    act: 'Agree who it is, the call-in time, and what they do if no call comes.',
    deal: 'Agree a shore contact',
    was: ['somebody ashore waits for a call'],
  },
  {
    check: 'help',
    question: 'Escape route and nearest help known',
    why: 'position written in the format rescuers use',
    of: 'day',
    no: 'danger',
    hazard: 'Escape route or nearest help not known',
    act: 'Walk the route first, and write the position in the format rescuers use.',
    deal: 'Find the escape route',
    was: ['way out and place for help known'],
  },
  {
    check: 'alone',
    question: 'Nobody works alone',
    why: 'at least two within sight of each other',
    of: 'day',
    no: 'danger',
    hazard: 'Somebody works alone',
    act: 'Stop until there are two within sight of each other.',
    deal: 'Work in pairs',
    was: [],
  },
  {
    check: 'weather',
    question: 'Weather checked, no lightning or gale',
    why: 'a mast on open ground draws lightning',
    of: 'day',
    no: 'danger',
    hazard: 'Lightning or gale possible',
    act: 'Lower the mast, move away from it and from the cable, and leave the open ground.',
    deal: 'Lower the mast',
    was: [],
  },
  {
    check: 'gear',
    question: 'Lines, blocks, shackles, anchors inspected',
    why: 'by a competent person; rated loads marked',
    of: 'day',
    no: 'danger',
    hazard: 'Lifting gear not inspected',
    act: 'Lift nothing until a competent person has inspected lines, blocks, shackles and anchors.',
    deal: 'Inspect the lifting gear',
    was: ['line, blocks, shackles, anchors looked over'],
  },
  {
    check: 'ppe',
    question: 'Ear, eye, head, hand and foot protection worn',
    why: 'no loose gloves near rotating parts; follow the vibrator manual',
    of: 'day',
    no: 'danger',
    hazard: 'Protective equipment not worn',
    act: 'Stop engine and winch until everyone wears it. No loose gloves near rotating parts; follow the vibrator manual.',
    deal: 'Put on protection',
    was: ['hands, eyes, ears, head, feet covered'],
  },
  {
    check: 'first_aid',
    question: 'First aid kit and fire extinguisher at hand',
    why: 'fuel away from the hot engine',
    of: 'day',
    no: 'danger',
    hazard: 'First aid kit or fire extinguisher missing',
    act: 'Fetch them before the engine starts, and keep fuel away from it while it is hot.',
    deal: 'Fetch kit and extinguisher',
    was: ['first aid and fire extinguisher at hand'],
  },
];

const byName = new Map(SAFETY_QUESTIONS.map((q) => [q.check, q]));
const byWords = new Map(
  SAFETY_QUESTIONS.flatMap((q) => [q.question.toLowerCase(), ...q.was].map((words) => [words, q] as const)),
);

/**
 * The question a row of the table `checks` answers: by its stable name, which holds whatever its wording in a later
 * version or another language, else by the words it was put in. The crew's own where it is none of ours.
 */
export function questionOf(
  { check, question }: { check: string | null; question: string },
  of: SafetyQuestion['of'],
): SafetyQuestion {
  const words = question.trim();
  return byName.get(check?.trim() ?? '') ?? byWords.get(words.toLowerCase()) ?? ownQuestion(words, of);
}

const ownQuestion = (question: string, of: SafetyQuestion['of']): SafetyQuestion => ({
  check: `own: ${question.toLowerCase()}`,
  question,
  why: '',
  of,
  no: 'danger',
  hazard: `${question}: no`,
  act: 'Deal with it before work goes on, then answer again.',
  deal: 'Deal with the hazard',
  was: [],
});
