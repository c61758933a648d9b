/**
 * fretward as a library: the functions that the command line calls, without the command line. They read no
 * file and write none, print nothing, and answer the same for the same arguments, always.
 *
 *   bytes ──readTune──▶ Tune ──arrange──▶ Arrangement ──toText, toMusicXml, toMidi, toJson──▶ files
 *                                              └──engrave──▶ Page[] ──pageToSvg, PAGE_WRITERS──▶ files
 *
 * What cannot be done is thrown as a `Refusal`; what there is to say besides comes back as `diagnostics`.
 *
 * @example
 * const { tune } = readTune(readFileSync('tune.mxl'));
 * const ukulele = findInstrument('ukulele-low-g');
 * const { arrangement } = arrange(tune, ukulele, rulesFrom({ windows: wholeTune(4, 8) }));
 * writeFileSync('tune.musicxml', toMusicXml(tune, arrangement, { staves: 2 }));
 *
 * @module
 */
import { type ReadOptions, readScore } from './read/read.ts';
import { chooseMelody, type Melody, type MelodyChoice } from './score/melody.ts';

// Reading.

/** Which melody is taken, and how much is read. */
export interface TuneOptions extends Partial<MelodyChoice>, ReadOptions {}

/**
 * The tune in the bytes of a MusicXML file (.musicxml, .xml, .mxl): part and voice as asked for, or the
 * first with notes; of chords the top note alone unless `chords` is `all`. Throws a Refusal.
 */
export const readTune = (bytes: Uint8Array, options: TuneOptions = {}): Melody => {
  const { score, diagnostics } = readScore(bytes, options);
  const melody = chooseMelody(score, { chords: 'top', ...options });
  return { tune: melody.tune, diagnostics: [...diagnostics, ...melody.diagnostics] };
};

export { type Reading, type ReadOptions, readScore } from './read/read.ts';
export { chooseMelody, type Melody, type MelodyChoice } from './score/melody.ts';

// What is read.

export { type Diagnostic, type DiagnosticPlace, Refusal, type Source } from './score/diagnostic.ts';
export type * from './score/model/attributes.ts';
export type * from './score/model/barline.ts';
export type * from './score/model/chord-symbol.ts';
export type * from './score/model/direction.ts';
export type * from './score/model/duration.ts';
export type * from './score/model/event.ts';
export type * from './score/model.ts';
export { midi, type Pitch, pitchName, type Step, typedName } from './score/pitch.ts';
export { type PartSummary, type Summary, summarise, type VoiceSummary } from './score/summary.ts';
export type { Interval } from './score/transpose.ts';
export { type KeyAsked, keyNamed, moveTo } from './score/transpose-to-key.ts';
export { type Move, transposeTune } from './score/transpose-tune.ts';
export type { Tune, TuneMeasure } from './score/tune.ts';

// Instruments.

export { DEFAULT_INSTRUMENT, INSTRUMENTS } from './instrument/catalogue.ts';
export {
  findInstrument,
  midiOf,
  parseInstrument,
  parseTuning,
  withCapo,
  withTuning,
} from './instrument/define.ts';
export type { HandSpread, Instrument, Place, ReadingClef } from './instrument/instrument.ts';
export { openPitches, placesOf, soundAt, soundRange, topFret } from './instrument/places.ts';

// Fingering.

export { cheapest } from './fingering/alternatives.ts';
export { type Arranged, arrange, arrangementOf } from './fingering/arrange.ts';
export type {
  Arrangement,
  Finger,
  Fit,
  FretWindow,
  Misfit,
  Placement,
  WindowRule,
} from './fingering/arrangement.ts';
export type { Demand, Fixed, Targets } from './fingering/demand.ts';
export {
  type Difficulty,
  type DifficultyReport,
  difficultyOf,
  type HardMove,
} from './fingering/difficulty.ts';
export {
  arrangeEditions,
  type Editions,
  type EditionsAsked,
  type RefusedEdition,
} from './fingering/editions.ts';
export { type Alternative, type Charge, type Explained, explain } from './fingering/explain.ts';
export type { FingerMove, Grip, MoveContext, Touch } from './fingering/grip.ts';
export type { Hand, HandSize, Home } from './fingering/hand.ts';
export type { Lattice, Layer, MoveTable } from './fingering/lattice.ts';
export type { CostModel } from './fingering/model.ts';
export type { Problem, Solved } from './fingering/problem.ts';
export {
  type Level,
  type OpenPolicy,
  type OutsidePolicy,
  type Pin,
  type Rules,
  rulesFrom,
  wholeTune,
} from './fingering/rules.ts';
export type { Found } from './fingering/search.ts';
export { type Strike, type Strikes, strikesOf } from './fingering/strikes.ts';
export {
  ranked,
  type SurveyRange,
  type SurveyRow,
  survey,
  TRANSPOSITIONS,
  windowsOf,
} from './fingering/survey.ts';
export type { FingerTerm, GripTerm, HandTerm, MoveTerm, Term, TermBase } from './fingering/terms/term.ts';
export type { Tie, TieKey } from './fingering/ties.ts';
export type { FingeringAsked } from './fingering/ways-out.ts';

// Outputs.

export type * from './emit/json/document.ts';
export { arrangementSchema } from './emit/json/json-schema.ts';
export { arrangementDocument, toJson } from './emit/json.ts';
export { type MidiTune, type Practice, toMidi } from './emit/midi.ts';
export { toMxl } from './emit/musicxml/mxl.ts';
export { type MusicXmlOptions, toMusicXml } from './emit/musicxml.ts';
export { PAGE_WRITERS, type PageFormat, type PageStyle, type Rendered } from './emit/pages.ts';
export { pageToSvg } from './emit/svg.ts';
export { type Paint, type TextOptions, type TextRole, toText } from './emit/text.ts';
export type { FontFile } from './emit/type/font-file.ts';
export { type Engraving, engrave, type SheetName, type SheetOptions } from './engrave/engrave.ts';
export type { Group, Page } from './engrave/page.ts';

// What pages are drawn with.

export type { CurveMark } from './engrave/drawing/curve.ts';
export type { GlyphMark } from './engrave/drawing/glyph.ts';
export type { Ink } from './engrave/drawing/ink.ts';
export type { LineMark } from './engrave/drawing/line.ts';
export type { Mark } from './engrave/drawing/mark.ts';
export type { Point, PolygonMark } from './engrave/drawing/polygon.ts';
export type { Role } from './engrave/drawing/role.ts';
export type { TextMark } from './engrave/drawing/text.ts';
export type { FaceName } from './engrave/font/face.ts';
export type { GlyphName } from './engrave/font/glyph.ts';
