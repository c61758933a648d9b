/**
 * First stage: what stands in each measure, as text, moment by moment. After it nothing is music any
 * more: only strings, rows of the staff, and the order of moments.
 */

import { type Accidental, accidentals } from '../../engrave/content/accidentals.ts';
import { chordPieces } from '../../engrave/content/chord-name.ts';
import { OUTSIDE_SIGN } from '../../engrave/content/figure-signs.ts';
import { type HandMarks, handMarks, roman } from '../../engrave/content/fingers.ts';
import type { SheetOptions } from '../../engrave/options.ts';
import type { Arrangement, Placement } from '../../fingering/arrangement.ts';
import type { ReadingClef } from '../../instrument/instrument.ts';
import { type Barline, rightBarline } from '../../score/model/barline.ts';
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import type { Ticks } from '../../score/model/duration.ts';
import type { MusicEvent, NoteEvent } from '../../score/model/event.ts';
import { isPickupNumber } from '../../score/moments.ts';
import { pitchName } from '../../score/pitch.ts';
import type { Tune, TuneMeasure } from '../../score/tune.ts';
import { type EndingSpan, endingSpans } from './endings.ts';
import { type Mark, marksOf } from './marks.ts';
import { type Signature, signatureAt, staffPosition } from './signature.ts';
import type { Signs } from './signs.ts';
import { type Syllable, syllables } from './syllables.ts';
import { rhythmText } from './values.ts';
import { cleanText, toAscii } from './width.ts';

/** A notehead; positions count staff steps up from the bottom line, which is 0, to the top line, 8. */
interface StaffHead {
  readonly position: number;
  readonly sign: string;
  readonly accidental: string;
}

/** A fret on its string; string 1 is the top line of tablature. */
interface TabFigure {
  readonly string: number;
  readonly text: string;
  readonly outside: boolean;
}

/** What stands in one column: a note, a rest, or only a chord symbol or a change of signature. */
export interface Entry {
  readonly at: Ticks;
  /** The event's id, where there is one. */
  readonly event: number | undefined;
  readonly rest: boolean;
  /** A whole-measure rest, which stands in the middle whatever the metre. */
  readonly centred: boolean;
  readonly heads: readonly StaffHead[];
  readonly figures: readonly TabFigure[];
  /** Left-hand finger, where it is shown. */
  readonly finger: string;
  /** Note letters, with accidentals; of a chord the lowest first. */
  readonly letters: string;
  readonly rhythm: string;
  /** Held over to the next note. */
  readonly tied: boolean;
  readonly chord: string;
  /** One for each verse. */
  readonly syllables: readonly (Syllable | undefined)[];
  readonly signature: Signature | undefined;
}

/** What a measure shows, before it has columns. */
export interface MeasureContent {
  /** As printed; empty for a pickup, which is not counted. */
  readonly number: string;
  readonly length: Ticks;
  readonly entries: readonly Entry[];
  /** What stands before the first note when the measure starts a system, and when it does not. */
  readonly opening: Signature;
  readonly change: Signature | undefined;
  readonly left: Barline;
  readonly right: Barline;
  readonly ending: EndingSpan | undefined;
  readonly marks: readonly Mark[];
}

/** What is shown of the left hand. */
export type HandMarksShown = Pick<SheetOptions, 'fingers' | 'positions'>;

/** The outcome of an arrangement and the ways to write, which every measure looks at. */
interface Sources {
  readonly clef: ReadingClef;
  readonly signs: Signs;
  readonly placements: ReadonlyMap<number, Placement>;
  readonly accidentals: ReadonlyMap<number, Accidental>;
  /** Of each verse, by event id. */
  readonly syllables: readonly ReadonlyMap<number, Syllable>[];
  readonly hand: HandMarks;
  /** Heads that lie elsewhere than in the edition that this one was matched with. */
  readonly elsewhere: ReadonlySet<number>;
}

/** The tune, measure by measure, as text. */
export const contentOf = (
  tune: Tune,
  arrangement: Arrangement,
  signs: Signs,
  shown: HandMarksShown = {},
): readonly MeasureContent[] => {
  const write = textWriter(signs);
  const endings = endingSpans(tune.measures);
  const sources: Sources = {
    clef: arrangement.instrument.clef,
    signs,
    placements: arrangement.placements,
    elsewhere: arrangement.matched?.differences ?? new Set(),
    accidentals: accidentals(tune),
    syllables: syllables(tune, write),
    hand: handMarks(tune, arrangement, {
      fingers: shown.fingers ?? 'none',
      positions: shown.positions ?? false,
    }),
  };
  return tune.measures.map((measure, index) => ({
    number: measure.implicit || isPickupNumber(measure.number) ? '' : write(measure.number),
    length: measure.length,
    entries: entriesOf(measure, sources),
    opening: signatureAt(measure, index === 0 ? undefined : tune.measures[index - 1], 'opening'),
    change: index === 0 ? undefined : signatureAt(measure, tune.measures[index - 1], 'change'),
    left: measure.left,
    right: rightBarline(tune.measures, index),
    ending: endings[index],
    marks: [...marksOf(measure, write), ...positionMarks(measure, sources)],
  }));
};

/** Roman numerals over the notes at which the hand takes a new position. */
const positionMarks = ({ events }: TuneMeasure, { hand }: Sources): readonly Mark[] =>
  events.flatMap(({ id, at }) => {
    const position = hand.positions.get(id);
    return position === undefined ? [] : [{ text: roman(position), at, over: 'note' }];
  });

/** Text from the file, as it may be shown. */
export const textWriter =
  (signs: Signs) =>
  (text: string): string =>
    signs.ascii ? toAscii(cleanText(text)) : cleanText(text);

const entriesOf = (measure: TuneMeasure, sources: Sources): readonly Entry[] => {
  const entries = measure.events.map(event => eventEntry(event, sources));
  for (const [at, chord] of chordsByTime(measure, sources.signs)) {
    const index = entries.findIndex(entry => entry.at === at && entry.rhythm[0] !== 'g' && !entry.centred);
    if (index >= 0) entries[index] = { ...entries[index]!, chord };
    else insert(entries, { ...emptyEntry(at), chord });
  }
  let fifths = measure.key.fifths;
  for (const change of measure.changes) {
    if (change.at === 0 || (!change.key && !change.time)) continue;
    const signature: Signature = {
      kind: 'change',
      fifths: change.key?.fifths,
      cancelled: change.key ? fifths : 0,
      time: change.time,
    };
    fifths = change.key?.fifths ?? fifths;
    insert(entries, { ...emptyEntry(change.at), signature }, 'before');
  }
  return entries;
};

/** Puts an entry at its time, after those of the same time or before them. */
const insert = (entries: Entry[], entry: Entry, side: 'before' | 'after' = 'after'): void => {
  const index = entries.findIndex(({ at }) => (side === 'before' ? at >= entry.at : at > entry.at));
  entries.splice(index < 0 ? entries.length : index, 0, entry);
};

const emptyEntry = (at: Ticks): Entry => ({
  at,
  event: undefined,
  rest: false,
  centred: false,
  heads: [],
  figures: [],
  finger: '',
  letters: '',
  rhythm: '',
  tied: false,
  chord: '',
  syllables: [],
  signature: undefined,
});

const eventEntry = (event: MusicEvent, sources: Sources): Entry => {
  const common = { ...emptyEntry(event.at), event: event.id, rhythm: rhythmText(event) };
  if (event.kind === 'rest') return { ...common, rest: true, centred: event.wholeMeasure };
  return {
    ...common,
    heads: headsOf(event, sources),
    figures: figuresOf(event, sources),
    finger: event.heads.map(head => sources.hand.fingers.get(head.id) ?? '').join(''),
    letters: lettersOf(event, sources),
    tied: event.heads.some(head => head.tieTo !== undefined),
    syllables: sources.syllables.map(verse => verse.get(event.id)),
  };
};

const headsOf = (event: NoteEvent, { clef, signs, accidentals }: Sources): readonly StaffHead[] =>
  event.heads.map(head => {
    const { filled, open, grace } = signs.head;
    const accidental = accidentals.get(head.id);
    const sign = accidental ? (signs.accidentals[accidental.alter] ?? '?') : '';
    return {
      position: staffPosition(head.pitch, clef),
      sign: event.grace ? grace : event.value.base > 2 ? filled : open,
      accidental: accidental?.bracketed ? `(${sign})` : sign,
    };
  });

/** Tied-to notes are named no more than they are struck. */
const lettersOf = (event: NoteEvent, { signs }: Sources): string =>
  event.heads
    .filter(head => head.tieFrom === undefined)
    .map(({ pitch }) => textWriter(signs)(pitchName(pitch, false)))
    .join('');

/** A tied note is not struck again: no figure. */
const figuresOf = (event: NoteEvent, { placements, elsewhere, signs }: Sources): readonly TabFigure[] =>
  event.heads.flatMap(head => {
    const placement = head.tieFrom === undefined ? placements.get(head.id) : undefined;
    if (!placement) return [];
    const outside = placement.fit === 'outside';
    const beside = outside ? OUTSIDE_SIGN : elsewhere.has(head.id) ? signs.elsewhere : '';
    return [{ string: placement.string, text: `${placement.fret}${beside}`, outside }];
  });

/** Chord symbols of a measure, those of one moment joined. */
const chordsByTime = (measure: TuneMeasure, signs: Signs): ReadonlyMap<Ticks, string> => {
  const chords = new Map<Ticks, string>();
  for (const symbol of measure.chordSymbols) {
    const text = chordText(symbol, signs);
    chords.set(symbol.at, chords.has(symbol.at) ? `${chords.get(symbol.at)} ${text}` : text);
  }
  return chords;
};

/** On one line, where nothing is raised, a minor chord's major seventh needs brackets: `Cm(maj7)`. */
export const chordText = (symbol: ChordSymbol, signs: Signs): string => {
  const text = chordPieces(symbol)
    .map(piece => piece.text)
    .join('')
    .replace(/m(maj\d+)/, 'm($1)');
  return signs.ascii ? toAscii(text.replace('°', 'dim').replace('ø7', 'm7b5')) : cleanText(text);
};
