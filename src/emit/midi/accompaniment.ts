/** The chord symbols as held chords under the melody: the root below, the other tones around middle C. */
import { chordOf, pitchClass, toneClass } from '../../lesson/chords/chord.ts';
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import type { Sounding, Visit } from './performance.ts';

/** Softer than the melody. */
const VELOCITY = 52;

/** The bass lies in E2 … D♯3, the chord in G3 … F♯4. */
const LOWEST = { bass: 40, chord: 55 } as const;

interface Held {
  readonly at: number;
  readonly symbol: ChordSymbol;
}

/** A chord sounds until the next symbol; a measure without one goes on with what was heard before it. */
export const accompany = (visits: readonly Visit[]): readonly Sounding[] => {
  const held: Held[] = visits.flatMap(({ measure, at }) =>
    measure.chordSymbols.map(symbol => ({ at: at + symbol.at, symbol })),
  );
  const last = visits.at(-1);
  const end = last ? last.at + last.measure.length : 0;
  return held.flatMap(({ at, symbol }, index) => {
    const duration = (held[index + 1]?.at ?? end) - at;
    return duration > 0 ? soundsOf(symbol).map(sound => ({ at, duration, sound, velocity: VELOCITY })) : [];
  });
};

const soundsOf = (symbol: ChordSymbol): readonly number[] => {
  const chord = chordOf(symbol);
  if (!chord) return [];
  const above = (lowest: number, chroma: number): number => lowest + ((((chroma - lowest) % 12) + 12) % 12);
  const bass = above(LOWEST.bass, pitchClass(chord.bass ?? chord.root));
  const tones = new Set(chord.tones.map(tone => above(LOWEST.chord, toneClass(tone))));
  return [bass, ...tones];
};
