/**
 * The instruments that fretward knows. A new one is a new row.
 *
 * Scale lengths: concert ukulele 15 in, baritone 20 in, classical guitar 650 mm, mandolin 13 7/8 in:
 * the middle of what makers publish. Bass 34 in, and the numbers of frets
 * of guitar (steel strings: 20 or more), mandolin and bass: from memory, common practice.
 */
import { type Pitch, stepNamed } from '../score/pitch.ts';
import type { Instrument } from './instrument.ts';

const strings = (names: string): readonly Pitch[] =>
  names
    .split(' ')
    .map((name): Pitch => ({ step: stepNamed(name[0]!)!, alter: 0, octave: Number(name[1]) }))
    .reverse();

/** Open strings are given as players say them, from the string nearest the ceiling down. */
export const INSTRUMENTS: readonly Instrument[] = [
  {
    id: 'ukulele',
    name: 'Ukulele, high G',
    strings: strings('G4 C4 E4 A4'),
    frets: 18,
    scaleLength: 381,
    hand: 'one-fret-a-finger',
    clef: 'treble',
    capo: 0,
  },
  {
    id: 'ukulele-low-g',
    name: 'Ukulele, low G',
    strings: strings('G3 C4 E4 A4'),
    frets: 18,
    scaleLength: 381,
    hand: 'one-fret-a-finger',
    clef: 'treble',
    capo: 0,
  },
  {
    id: 'baritone-ukulele',
    name: 'Baritone ukulele',
    strings: strings('D3 G3 B3 E4'),
    frets: 19,
    scaleLength: 508,
    hand: 'one-fret-a-finger',
    clef: 'treble-8',
    capo: 0,
  },
  {
    id: 'guitar',
    name: 'Guitar',
    strings: strings('E2 A2 D3 G3 B3 E4'),
    frets: 20,
    scaleLength: 650,
    hand: 'one-fret-a-finger',
    clef: 'treble-8',
    capo: 0,
  },
  {
    id: 'mandolin',
    name: 'Mandolin',
    strings: strings('G3 D4 A4 E5'),
    frets: 20,
    scaleLength: 352.4,
    hand: 'two-frets-a-finger',
    clef: 'treble',
    capo: 0,
  },
  {
    id: 'bass',
    name: 'Bass guitar',
    strings: strings('E1 A1 D2 G2'),
    frets: 20,
    scaleLength: 863.6,
    hand: 'one-fret-a-finger',
    clef: 'bass-8',
    capo: 0,
  },
];

/** The id of the instrument where none is named. */
export const DEFAULT_INSTRUMENT = 'ukulele';
