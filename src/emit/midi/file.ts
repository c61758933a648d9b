/**
 * Standard MIDI File 1.0: tracks of events with absolute times → bytes. Source of the layout: the
 * specification of the MIDI Association (RP-001), from memory; tests read it back with another library.
 */

export interface MidiEvent {
  /** Ticks of the file from its start. */
  readonly at: number;
  readonly bytes: readonly number[];
  /** Of events at one time, lower ones come first: a note ends before the next begins. */
  readonly order: number;
}

/** The events of a track, each at its tick. */
export type MidiTrack = readonly MidiEvent[];

/** Ends notes, describes, starts notes. */
const ORDER = { off: 0, meta: 1, on: 2 } as const;

/** The text events that this program writes. */
const TEXTS = { copyright: 2, name: 3, marker: 6 } as const;

/** A text of some kind: a track’s name, a marker. */
export const textEvent = (at: number, kind: keyof typeof TEXTS, text: string): MidiEvent =>
  metaEvent(at, TEXTS[kind], [...new TextEncoder().encode(text)]);

/** `microseconds` of a quarter note; the format has room for 24 bits. */
export const tempoEvent = (at: number, microseconds: number): MidiEvent =>
  metaEvent(at, 0x51, bigEndian(Math.min(0xffffff, Math.max(1, Math.round(microseconds))), 3));

/** A metronome beat is told as `clocks` of 24 to the quarter note. */
export const timeSignatureEvent = (at: number, beats: number, beatType: number, clocks: number): MidiEvent =>
  metaEvent(at, 0x58, [beats & 0xff, Math.round(Math.log2(beatType)), clocks & 0xff, 8]);

/** A key signature. */
export const keySignatureEvent = (at: number, fifths: number, minor: boolean): MidiEvent =>
  metaEvent(at, 0x59, [fifths & 0xff, minor ? 1 : 0]);

/** The sound of a channel. */
export const programEvent = (channel: number, program: number): MidiEvent => ({
  at: 0,
  bytes: [0xc0 | channel, program],
  order: ORDER.meta,
});

/** The two events of a note; `from` is before `to`. */
export const noteEvents = (
  channel: number,
  from: number,
  to: number,
  sound: number,
  velocity: number,
): readonly MidiEvent[] => [
  { at: from, bytes: [0x90 | channel, sound, velocity], order: ORDER.on },
  { at: to, bytes: [0x80 | channel, sound, 0], order: ORDER.off },
];

const metaEvent = (at: number, type: number, data: readonly number[]): MidiEvent => ({
  at,
  bytes: [0xff, type, ...variableLength(data.length), ...data],
  order: ORDER.meta,
});

/** A file of format 1 with `resolution` ticks to the quarter note, 1 … 32767. */
export const midiFile = (resolution: number, tracks: readonly MidiTrack[]): Uint8Array => {
  const bytes: number[] = [];
  append(
    bytes,
    chunk('MThd', [...bigEndian(1, 2), ...bigEndian(tracks.length, 2), ...bigEndian(resolution, 2)]),
  );
  for (const track of tracks) append(bytes, chunk('MTrk', trackBytes(track)));
  return Uint8Array.from(bytes);
};

const END_OF_TRACK = [0, 0xff, 0x2f, 0] as const;

const trackBytes = (track: MidiTrack): readonly number[] => {
  const bytes: number[] = [];
  let now = 0;
  for (const event of [...track].sort((a, b) => a.at - b.at || a.order - b.order)) {
    append(bytes, variableLength(event.at - now));
    append(bytes, event.bytes);
    now = event.at;
  }
  append(bytes, END_OF_TRACK);
  return bytes;
};

/** One by one: spreading a long track into `push` would overflow the stack. */
const append = (list: number[], more: readonly number[]): void => {
  for (const byte of more) list.push(byte);
};

const chunk = (type: string, data: readonly number[]): readonly number[] => {
  const bytes = [...type].map(letter => letter.charCodeAt(0));
  append(bytes, bigEndian(data.length, 4));
  append(bytes, data);
  return bytes;
};

const bigEndian = (value: number, size: number): readonly number[] =>
  Array.from({ length: size }, (_, index) => (value >>> (8 * (size - 1 - index))) & 0xff);

/** Seven bits a byte, the highest first; all but the last have the eighth bit set. */
const variableLength = (value: number): readonly number[] => {
  const bytes = [value & 0x7f];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
};
