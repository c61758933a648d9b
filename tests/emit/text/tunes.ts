/** Small tunes written by hand, and an arrangement that takes the lowest place of each pitch. */
import type { Arrangement, FretWindow, Placement } from '../../../src/fingering/arrangement.ts';
import { INSTRUMENTS } from '../../../src/instrument/catalogue.ts';
import type { Instrument } from '../../../src/instrument/instrument.ts';
import { PLAIN_BARLINE } from '../../../src/score/model/barline.ts';
import type { ChordSymbol } from '../../../src/score/model/chord-symbol.ts';
import type { NoteValue } from '../../../src/score/model/duration.ts';
import type { Lyric, MusicEvent } from '../../../src/score/model/event.ts';
import { midi, type Pitch, type Step } from '../../../src/score/pitch.ts';
import type { Tune, TuneMeasure } from '../../../src/score/tune.ts';

export const DIVISION = 48;

const source = { line: 1, part: 'P1', measure: '1' };
const BASES: Readonly<Record<string, number>> = { w: 1, h: 2, q: 4, e: 8, s: 16, t: 32 };

export interface MeasureSpec extends Partial<Omit<TuneMeasure, 'events' | 'chordSymbols'>> {
  /**
   * Notes in order: pitch (or `r`), letter of the value, dots, `3` for a triplet note, `~` for a tie to
   * the next note, then after a slash the syllable: `F#4q.~/Row-`.
   */
  readonly notes: string;
  /** Chord roots by the index of the note that they stand over. */
  readonly chords?: Readonly<Record<number, string>>;
}

/** Reads `Bb4`, `F#5`. */
const pitch = (name: string): Pitch => {
  const [, step, sign, octave] = /^([A-G])([#b]*)(\d)$/.exec(name)!;
  const alter = [...sign!].reduce((sum, each) => sum + (each === '#' ? 1 : -1), 0);
  return { step: step as Step, alter, octave: Number(octave) };
};

const TOKEN = /^(r|[A-G][#b]*\d)([whqest])(\.*)(3?)(~?)(?:\/(.*))?$/;

const lyric = (text: string | undefined): readonly Lyric[] => {
  if (!text) return [];
  const syllabic = text.endsWith('-') ? 'begin' : 'single';
  return [{ verse: '1', text: text.replace(/[-_]$/, ''), syllabic, extend: text.endsWith('_') }];
};

/** A tune of these measures, in 4/4 and C unless they say otherwise; ids count up from 1. */
export const tuneOf = (specs: readonly MeasureSpec[], heading: Partial<Tune> = {}): Tune => {
  let id = 1;
  let tieFrom: number | undefined;
  let start = 0;
  const readEvent = (token: string, at: number): MusicEvent => {
    const [, name, letter, dots, triplet, tie, text] = TOKEN.exec(token)!;
    const base = BASES[letter!]!;
    const ratio = triplet ? { actual: 3, normal: 2 } : undefined;
    const value: NoteValue = { base, dots: dots!.length, ratio };
    const plain = ((DIVISION * 4) / base) * (2 - 0.5 ** dots!.length);
    const duration = triplet ? (plain * 2) / 3 : plain;
    const common = { id: id++, at, duration, value, fermata: false, source };
    if (name === 'r') return { ...common, kind: 'rest', wholeMeasure: false };
    const headId = id++;
    const head = {
      id: headId,
      pitch: pitch(name!),
      courtesy: false,
      tieTo: tie ? id + 1 : undefined,
      tieFrom,
      marked: { string: undefined, fret: undefined, finger: undefined },
      source,
    };
    tieFrom = tie ? headId : undefined;
    const bare = { grace: undefined, cue: false, stem: undefined, beams: [], articulations: [] } as const;
    return { ...common, ...bare, kind: 'note', heads: [head], lyrics: lyric(text) };
  };
  const measures = specs.map(({ notes, chords = {}, ...rest }, index): TuneMeasure => {
    let length = 0;
    const events = notes.split(' ').map(token => {
      const event = readEvent(token, length);
      length += event.duration;
      return event;
    });
    const chordSymbols = Object.entries(chords).map(([note, root]) => chord(root, events[Number(note)]!.at));
    const at = start;
    start += length;
    return {
      index,
      number: String(index + 1),
      implicit: false,
      at,
      length,
      key: { fifths: 0, mode: 'major' },
      time: { kind: 'metred', fractions: [{ beats: [4], beatType: 4 }], symbol: 'fraction' },
      clef: { sign: 'G', line: 2, octaveChange: 0 },
      changes: [],
      directions: [],
      left: PLAIN_BARLINE,
      right: index === specs.length - 1 ? { ...PLAIN_BARLINE, style: 'final' } : PLAIN_BARLINE,
      breakBefore: undefined,
      source,
      ...rest,
      events,
      chordSymbols,
    };
  });
  const names = { part: 'P1', partName: 'Melody', voice: '1', rights: [], slurs: [], tuplets: [] };
  return { division: DIVISION, ...names, ...heading, measures };
};

const chord = (root: string, at: number): ChordSymbol => ({
  at,
  root: { step: root[0] as Step, alter: 0 },
  kind: root.endsWith('7') ? 'dominant' : 'major',
  text: undefined,
  bass: undefined,
  degrees: [],
  source,
});

export const instrument = (id: string): Instrument => INSTRUMENTS.find(each => each.id === id)!;

/** Every struck note in its lowest place, whatever the window; frets outside it are marked so. */
export const lowestPlaces = (
  tune: Tune,
  on: Instrument = instrument('ukulele'),
  window?: FretWindow,
): Arrangement => {
  const placements = new Map<number, Placement>();
  for (const { events } of tune.measures)
    for (const event of events)
      if (event.kind === 'note')
        for (const head of event.heads) placements.set(head.id, lowest(head.pitch, on, window));
  const windows = window ? [{ measures: undefined, window }] : [];
  return { instrument: on, window, windows, placements, misfits: [], cost: 0, costs: new Map() };
};

const lowest = (sound: Pitch, on: Instrument, window: FretWindow | undefined): Placement => {
  const places = on.strings
    .map((open, index) => ({ string: index + 1, fret: midi(sound) - midi(open) }))
    .filter(({ fret }) => fret >= 0)
    .sort((a, b) => a.fret - b.fret);
  const place = places[0] ?? { string: 1, fret: 0 };
  const inside = !window || (place.fret >= window.low && place.fret <= window.high);
  return { ...place, finger: place.fret === 0 ? 0 : 1, position: 1, fit: inside ? 'inside' : 'outside' };
};
