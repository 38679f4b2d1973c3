/// What each step says of itself under its name.
import { grouped, plain } from '../format/units';
import { t, tf } from './language.svelte';
import { session } from './session.svelte';
import { trip } from './trip.svelte';
import { steps, view, type Step } from './view.svelte';
import { work } from './work.svelte';

export const step_words: Record<Step, string> = {
  ground: 'Ground', party: 'Party', way: 'Way', rehearse: 'Rehearse', paper: 'Paper',
};
export interface StepState {
  words: string;
  done: boolean;
  /** It was done, and the trip has changed since. */
  dated?: boolean;
}

const seconds = (kind: 'ways' | 'rehearsal' | 'paper' | 'ground') => {
  const job = work.running(kind);
  return job ? `${plain(job.seconds, 0)} s` : null;
};

export function step_state(step: Step): StepState {
  if (step === 'ground') {
    const building = seconds('ground');
    if (building) return { words: tf('building, {0}', building), done: false };
    return { words: session.ground?.name ?? 'none yet', done: session.ground !== null };
  }
  if (!trip.known) return { words: 'not ready', done: false };
  if (step === 'party') {
    const party = trip.document.party ?? {};
    // Whoever went past it took its defaults.
    const past = (trip.document.point?.length ?? 0) > 0 || steps.indexOf(view.step) > steps.indexOf('party');
    return { words: `${party.size ?? 2}, ${t(party.skill ?? 'practised')}`, done: past || Object.keys(party).length > 0 };
  }
  if (step === 'way') {
    const looking = seconds('ways');
    if (looking) return { words: tf('looking, {0}', looking), done: false };
    if (!work.way) return { words: trip.document.point?.length ? trip.document.point.length === 1 ? t('1 place') : tf('{0} places', trip.document.point.length) : 'not planned yet', done: false };
    return { words: work.ways_old ? 'out of date' : work.way.legs.length === 1 ? t('1 leg') : tf('{0} legs', work.way.legs.length), done: !work.ways_old, dated: work.ways_old };
  }
  if (step === 'rehearse') {
    const walking = seconds('rehearsal');
    if (walking) return { words: tf('walking, {0}', walking), done: false };
    if (!work.rehearsal) return { words: work.way ? 'not walked yet' : 'not ready', done: false };
    return work.rehearsal_old
      ? { words: 'out of date', done: false, dated: true }
      : { words: tf('{0} walked', grouped(work.rehearsal.walkers)), done: true };
  }
  const drawing = seconds('paper');
  if (drawing) return { words: tf('drawing, {0}', drawing), done: false };
  if (!work.paper) return { words: work.way ? 'not drawn yet' : 'not ready', done: false };
  return work.paper_old ? { words: 'out of date', done: false, dated: true } : { words: tf('{0} files', work.paper.files.length), done: true };
}

/** A step is told apart by its square: full, half, open. */
export const step_mark = (step: Step): 'now' | 'done' | 'todo' =>
  step === view.step ? 'now' : step_state(step).done ? 'done' : 'todo';
