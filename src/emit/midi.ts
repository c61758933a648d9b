/**
 * A tune → a practice track: Standard MIDI File, format 1. Tracks: tempo, metre and key; count-in;
 * melody; chords, where they are asked for. Repeats, endings and jumps are played out.
 */
import type { Instrument } from '../instrument/instrument.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import { playOrder } from '../score/play-order.ts';
import type { Tune } from '../score/tune.ts';
import { accompany } from './midi/accompaniment.ts';
import { countIn } from './midi/count-in.ts';
import { type MidiTrack, midiFile, noteEvents, programEvent, textEvent } from './midi/file.ts';
import { perform, type Sounding, visitsOf } from './midi/performance.ts';
import { conductorEvents } from './midi/tempo.ts';

/** What a practice track is to be like. */
export interface Practice {
  /** Beats a minute instead of the tune's own tempo. */
  readonly tempo?: number | undefined;
  /** How much of the tempo is played, per cent; 100 if it is not said. */
  readonly percent?: number | undefined;
  /** Measures of clicks before the tune; one if it is not said, two before a pickup. */
  readonly countIn?: number | undefined;
  /** Sound the chord symbols. */
  readonly chords?: boolean | undefined;
}

/** A MIDI file, and what it had to leave unplayed. */
export interface MidiTune {
  readonly bytes: Uint8Array;
  readonly diagnostics: readonly Diagnostic[];
}

/** Channels counted from 0; percussion is the tenth (General MIDI 1). */
const CHANNELS = { melody: 0, chords: 1, clicks: 9 } as const;

/** General MIDI 1, counted from 0 (from memory): nylon and steel guitar, fingered bass; wood blocks. */
const PROGRAMS = { nylon: 24, steel: 25, bass: 33 } as const;
const CLICKS = { accent: 76, plain: 77, velocity: 100 } as const;

/** Fine enough for grace notes, whatever the tune's own division. */
const LEAST_RESOLUTION = 480;
const MOST_RESOLUTION = 32767;

/** The practice track. Throws a Refusal where the repeats come to no end. */
export const toMidi = (tune: Tune, instrument: Instrument, practice: Practice = {}): MidiTune => {
  const { measures, diagnostics } = playOrder(tune);
  const visits = visitsOf(tune, measures);
  const lead = countIn(tune, practice.countIn);
  const factor = Math.ceil(LEAST_RESOLUTION / tune.division);
  const resolution = Math.min(MOST_RESOLUTION, tune.division * factor);
  const scaled = (ticks: number): number => Math.round((ticks * resolution) / tune.division);
  const ticks = (at: number): number => scaled(lead.length + at);
  const play = (channel: number, notes: readonly Sounding[]): MidiTrack =>
    notes.flatMap(({ at, duration, sound, velocity }) => {
      const from = ticks(at);
      return noteEvents(channel, from, Math.max(from + 1, ticks(at + duration)), sound, velocity);
    });
  const tempo = { perMinute: practice.tempo, percent: practice.percent ?? 100 };
  const tracks: MidiTrack[] = [
    [
      textEvent(0, 'name', tune.title ?? 'Tune'),
      ...tune.rights.map(each => textEvent(0, 'copyright', each)),
      ...conductorEvents(tune, visits, tempo, ticks),
    ],
    [
      textEvent(0, 'name', 'Count-in'),
      ...lead.clicks.flatMap(({ at, accent }) => {
        const sound = accent ? CLICKS.accent : CLICKS.plain;
        return noteEvents(
          CHANNELS.clicks,
          scaled(at),
          scaled(at + tune.division / 4),
          sound,
          CLICKS.velocity,
        );
      }),
    ],
    [
      textEvent(0, 'name', instrument.name),
      programEvent(CHANNELS.melody, programFor(instrument)),
      ...play(CHANNELS.melody, perform(tune, visits)),
    ],
  ];
  if (practice.chords) {
    tracks.push([
      textEvent(0, 'name', 'Chords'),
      programEvent(CHANNELS.chords, PROGRAMS.nylon),
      ...play(CHANNELS.chords, accompany(visits)),
    ]);
  }
  return { bytes: midiFile(resolution, tracks), diagnostics };
};

/** The plucked-string programme nearest to an instrument, by how it is held and read. */
const programFor = ({ clef, hand }: Instrument): number => {
  if (clef === 'bass-8') return PROGRAMS.bass;
  return hand === 'two-frets-a-finger' ? PROGRAMS.steel : PROGRAMS.nylon;
};
