/**
 * A tune and its arrangement → JSON for other programs: all that is needed to draw it again, or to study
 * it. Times are exact fractions of a whole note. `fretward schema arrangement` prints what it holds.
 */
import type { Arrangement } from '../fingering/arrangement.ts';
import type { Instrument } from '../instrument/instrument.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import type { Tune } from '../score/tune.ts';
import type {
  ArrangementDocument,
  InstrumentDocument,
  TuneDocument,
  WarningDocument,
} from './json/document.ts';
import { chordSymbolsOf, marksOf, measuresOf } from './json/measures.ts';
import { notesOf, pitchOf, restsOf } from './json/notes.ts';

/** Of the document: a minor version adds fields, a major one may change or remove them. */
const VERSION = '1.0';

/** The text of the file; `said` is what reading and arranging had to say. */
export const toJson = (tune: Tune, arrangement: Arrangement, said: readonly Diagnostic[] = []): string =>
  `${JSON.stringify(arrangementDocument(tune, arrangement, said), null, 2)}\n`;

/** The same as data. */
export const arrangementDocument = (
  tune: Tune,
  arrangement: Arrangement,
  said: readonly Diagnostic[] = [],
): ArrangementDocument => ({
  format: 'fretward-arrangement',
  version: VERSION,
  tune: tuneOf(tune),
  instrument: instrumentOf(arrangement.instrument),
  windows: arrangement.windows.map(({ window, measures }) => ({ ...window, ...(measures && { measures }) })),
  cost: arrangement.cost / 1000,
  ...(arrangement.matched && { matchedWith: arrangement.matched.instrument.id }),
  measures: measuresOf(tune),
  notes: notesOf(tune, arrangement),
  rests: restsOf(tune),
  slurs: tune.slurs.map(({ from, to }) => ({ from, to })),
  chordSymbols: chordSymbolsOf(tune),
  marks: marksOf(tune),
  warnings: said.map(warningOf),
});

const tuneOf = (tune: Tune): TuneDocument => {
  const { title, composer, lyricist, arranger, rights, part, partName, voice, transposition = 0 } = tune;
  return {
    ...(title !== undefined && { title }),
    ...(composer !== undefined && { composer }),
    ...(lyricist !== undefined && { lyricist }),
    ...(arranger !== undefined && { arranger }),
    rights,
    part,
    partName,
    voice,
    transposition,
  };
};

const instrumentOf = ({ id, name, strings, frets, scaleLength, hand, clef, capo }: Instrument) =>
  ({
    id,
    name,
    strings: strings.map(pitchOf),
    frets,
    scaleLength,
    hand,
    clef,
    capo,
  }) satisfies InstrumentDocument;

const warningOf = ({ severity, code, message, hint, place }: Diagnostic): WarningDocument => ({
  severity,
  code,
  message,
  ...(hint !== undefined && { hint }),
  ...(place?.line !== undefined && { line: place.line }),
  ...(place?.measure !== undefined && { measure: place.measure }),
  ...(place?.beat !== undefined && { beat: place.beat }),
});
