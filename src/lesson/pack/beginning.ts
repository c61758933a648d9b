/** What a lesson on a tune may begin with: for whom, where on the neck, in which key. */
import type { FretWindow } from '../../fingering/arrangement.ts';
import { rulesFrom } from '../../fingering/rules.ts';
import { strikesOf } from '../../fingering/strikes.ts';
import { ranked, type SurveyRow, survey, TRANSPOSITIONS, windowsOf } from '../../fingering/survey.ts';
import { findInstrument } from '../../instrument/define.ts';
import type { Tune } from '../../score/tune.ts';
import { chordChart, symbolsOf } from '../chords/chart.ts';
import { type PartName, USUAL_PARTS } from './parts.ts';

/** What a lesson file begins with. */
export interface Beginning {
  /** Instruments by their ids, in the order of their editions. */
  readonly instruments: readonly string[];
  readonly window: FretWindow;
  /** Semitones. */
  readonly transposition: number;
  readonly parts: readonly PartName[];
}

/** The usual lesson: low notes are known, and the hand goes up the neck (common practice). */
const USUAL: Omit<Beginning, 'parts'> = {
  instruments: ['ukulele-low-g', 'ukulele'],
  window: { low: 4, high: 8 },
  transposition: 0,
};

const HOME = [0];
const AWAY = TRANSPOSITIONS.filter(each => each !== 0);

/**
 * What is tried, one after the other: a hand's worth of frets, or a little more, before a hand that wanders; both
 * ukuleles before the one that reaches lower, and that one before a guitar.
 */
const TRIES: readonly Try[] = [
  { instruments: USUAL.instruments, transpositions: HOME, spans: [5, 6, 7] },
  { instruments: USUAL.instruments, transpositions: AWAY, spans: [5, 6, 7] },
  { instruments: USUAL.instruments, transpositions: TRANSPOSITIONS, spans: [9, 12] },
  { instruments: ['ukulele-low-g'], transpositions: TRANSPOSITIONS, spans: [5, 7, 9, 12] },
  { instruments: ['guitar'], transpositions: TRANSPOSITIONS, spans: [5, 7, 12] },
];

interface Try {
  readonly instruments: readonly string[];
  /** Semitones. */
  readonly transpositions: readonly number[];
  /** Frets of a window. */
  readonly spans: readonly number[];
}

/** What a lesson begins with that has no tune yet. */
export const usualBeginning = (): Beginning => ({ ...USUAL, parts: USUAL_PARTS });

/**
 * What a lesson on a tune begins with: a window in which a survey finds that every note fits, the nearest key first, and
 * then the window nearest to the usual one. Where the tune fits nowhere, the window with the fewest notes outside.
 */
export const beginningFor = (tune: Tune): Beginning => {
  const parts = hasChords(tune) ? USUAL_PARTS : USUAL_PARTS.filter(name => name !== 'chords');
  let best: Found | undefined;
  for (const { instruments, transpositions, spans } of TRIES) {
    for (const span of spans) {
      const found = bestFor(tune, instruments, transpositions, span);
      if (!best || (found && found.misfits < best.misfits)) best = found;
      if (best?.misfits === 0) return { ...best, parts };
    }
  }
  return { ...(best ?? USUAL), parts };
};

interface Found extends Omit<Beginning, 'parts'> {
  readonly misfits: number;
}

/** The best window of so many frets for all instruments together. */
const bestFor = (
  tune: Tune,
  instruments: readonly string[],
  transpositions: readonly number[],
  span: number,
): Found | undefined => {
  const { strikes } = strikesOf(tune);
  const [first = [], ...others] = instruments.map(id => {
    const instrument = findInstrument(id);
    const range = { windows: windowsOf(instrument, span), transpositions };
    return survey(strikes, tune.division, instrument, rulesFrom({ open: 'rescue' }), range);
  });
  const together = first.flatMap(row => {
    const same = others.flatMap(rows => rows.filter(each => isSame(each, row)).slice(0, 1));
    return same.length === others.length ? [same.reduce(added, row)] : [];
  });
  // The sort keeps the order of the survey where nothing else decides.
  const [best] = [...ranked(together)].sort(
    (a, b) =>
      a.misfits - b.misfits || awayFromHome(a) - awayFromHome(b) || awayFromUsual(a) - awayFromUsual(b),
  );
  if (!best) return undefined;
  const { window, transposition, misfits } = best;
  return { instruments, window, transposition, misfits };
};

const awayFromHome = ({ transposition }: SurveyRow): number => Math.abs(transposition);

const awayFromUsual = ({ window }: SurveyRow): number => Math.abs(window.low - USUAL.window.low);

const isSame = (a: Pick<SurveyRow, 'transposition' | 'window'>, b: typeof a): boolean =>
  a.transposition === b.transposition && a.window.low === b.window.low && a.window.high === b.window.high;

/** Two editions as one: the notes outside of the worse, and the effort of both. */
const added = (a: SurveyRow, b: SurveyRow): SurveyRow => ({
  ...a,
  misfits: Math.max(a.misfits, b.misfits),
  costPerNote: a.costPerNote + b.costPerNote,
});

const hasChords = (tune: Tune): boolean => symbolsOf(chordChart(tune)).some(({ root }) => root !== undefined);
