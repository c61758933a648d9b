/** From checked options to what tunes are chosen, limited and arranged by. */
import { LIMITS, type Limits } from '../batch/job.ts';
import { isInstrumentFile } from '../batch/paths.ts';
import type { EditionsAsked } from '../fingering/editions.ts';
import type { MelodyChoice } from '../score/melody.ts';
import { chooseInstruments } from './instruments.ts';
import type { ARRANGING, LIMITING, Options } from './options/options.ts';
import { rulesOf } from './options/rules.ts';

export type Arranging = Options<(typeof ARRANGING)[number]>;
export type Limiting = Options<(typeof LIMITING)[number]>;

/** What is taken from a score. */
export const choiceOf = ({
  part,
  voice,
  chords,
}: Pick<Arranging, 'part' | 'voice' | 'chords'>): MelodyChoice => ({
  ...(part !== undefined && { part }),
  ...(voice !== undefined && { voice }),
  chords: chords ?? 'top',
});

/** How large files may be. */
export const limitsOf = ({ maxBytes, maxNotes }: Limiting): Limits => ({
  maxBytes: maxBytes ?? LIMITS.maxBytes,
  maxNotes: maxNotes ?? LIMITS.maxNotes,
});

/** What a tune is arranged for. Throws a UsageError where an instrument cannot be had. */
export const editionsOf = (options: Arranging): EditionsAsked => ({
  instruments: chooseInstruments(options),
  rules: rulesOf(options),
  transpose: options.transpose ?? 0,
  match: options.match ?? false,
});

/** Files beside the tune that its sheets are made of. */
export const ingredientsOf = ({
  font,
  instrument = [],
}: Options<'font' | 'instrument'>): readonly string[] => [
  ...(font === undefined ? [] : [font]),
  ...instrument.filter(isInstrumentFile),
];
