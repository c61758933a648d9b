/**
 * The shape that charts for beginners print first, for the chords that songs are made of. Source of every
 * row: common practice, from memory; where charts differ, all that they print. Not listed, because our order
 * prefers another shape than every chart that we remember: on the ukulele A6 (we: 2120, without its fifth),
 * Asus2 (4400) and Gadd9 (2232); on the guitar B (x21402).
 */
import { describe, expect, test } from 'vitest';
import { handOn } from '../../../src/fingering/hand.ts';
import { findInstrument } from '../../../src/instrument/define.ts';
import { chordShapes } from '../../../src/lesson/chords/shapes.ts';
import { chord, fingers, frets } from './support.ts';

type Chart = Readonly<Record<string, string>>;

/** Strings in the order G C E A. */
const UKULELE: Chart = {
  C: '0003',
  Cm: '0333',
  C7: '0001',
  Cmaj7: '0002',
  Cm7: '3333',
  C6: '0000',
  Caug: '1003',
  Csus4: '0013',
  Csus2: '0233',
  'C#': '1114',
  'C#m': '1104 1103',
  'C#7': '1112',
  Cdim7: '2323',
  Cadd9: '0203',
  D: '2220',
  Dm: '2210',
  D7: '2223 2020',
  Dmaj7: '2224',
  Dm7: '2213',
  Dm6: '2212',
  D6: '2222',
  Dsus4: '0230',
  Dsus2: '2200',
  Eb: '0331 3331',
  Ebm: '3321',
  Eb7: '3334',
  E: '1402 4442',
  Em: '0432',
  E7: '1202',
  Emaj7: '1302',
  Em7: '0202',
  Esus4: '2402 4400',
  F: '2010',
  Fm: '1013',
  Fdim: '4542',
  F7: '2313 2310',
  Fmaj7: '2413',
  Fm7: '1313',
  F6: '2213',
  Fsus4: '3011',
  'F#': '3121',
  'F#m': '2120',
  'F#7': '3424',
  'F#m7': '2424',
  'F#m7b5': '2423',
  G: '0232',
  Gm: '0231',
  G7: '0212',
  G9: '2212',
  Gmaj7: '0222',
  Gm7: '0211',
  G6: '0202',
  Gsus4: '0233',
  Gsus2: '0230',
  Ab: '5343',
  Abm: '4342 1342',
  Ab7: '1323',
  A: '2100',
  Am: '2000',
  A7: '0100',
  Amaj7: '1100',
  Am7: '0000',
  Asus4: '2200',
  Bb: '3211',
  Bbm: '3111',
  Bb7: '1211',
  Bbmaj7: '3210',
  Bbm7: '1111',
  Bb9: '1213',
  B: '4322',
  Bm: '4222',
  B7: '2322',
  Bmaj7: '4321 3322',
  Bm7: '2222',
  Bm7b5: '2212',
};

/** Strings in the order E A D G B E. */
const GUITAR: Chart = {
  C: 'x32010',
  D: 'xx0232',
  E: '022100',
  F: '133211 xx3211',
  G: '320003',
  A: 'x02220',
  Am: 'x02210',
  Bm: 'x24432',
  Cm: 'x35543',
  Dm: 'xx0231',
  Em: '022000',
  Fm: '133111',
  Gm: '355333',
  'F#m': '244222',
  C7: 'x32310',
  D7: 'xx0212',
  E7: '020100',
  G7: '320001',
  A7: 'x02020',
  B7: 'x21202',
  Am7: 'x02010',
  Em7: '020000',
  Dm7: 'xx0211',
  Cmaj7: 'x32000',
  Dmaj7: 'xx0222',
  Fmaj7: 'xx3210',
  Gmaj7: '320002',
  Amaj7: 'x02120',
  Dsus4: 'xx0233',
  Asus4: 'x02230',
  Esus4: '022200',
  Asus2: 'x02200',
  Dsus2: 'xx0230',
  Bb: 'x13331',
  Ab: '466544',
  F7: '131211',
  Bm7: 'x24232 x20202',
  'C/G': '332010',
};

/** Strings in the order D G B E: the upper four of a guitar. */
const BARITONE: Chart = {
  C: '2010',
  D: '0232',
  E: '2100',
  F: '3211',
  G: '0003',
  A: '2220',
  Am: '2210',
  Dm: '0231',
  Em: '2000',
  Gm: '0333',
  D7: '0212',
  E7: '0100',
  G7: '0001',
  A7: '2020 2223',
  B7: '1202',
  Am7: '2010 2213',
  Em7: '0000',
  Dm7: '0211',
};

/** Strings in the order G D A E. */
const MANDOLIN: Chart = {
  G: '0023',
  C: '0230',
  D: '2002',
  Am: '2230',
  Em: '0220',
  Dm: '2001',
  E: '1220',
  G7: '0021',
  A7: '2243',
};

const CHARTS: readonly (readonly [string, Chart])[] = [
  ['ukulele', UKULELE],
  ['ukulele-low-g', UKULELE],
  ['guitar', GUITAR],
  ['baritone-ukulele', BARITONE],
  ['mandolin', MANDOLIN],
];

const firstOf = (id: string, symbol: string) =>
  chordShapes(handOn(findInstrument(id)), chord(symbol), {}, 1)[0]!;

describe.each(CHARTS)('on %s, first', (id, chart) => {
  test.each(Object.entries(chart))('%s is %s', (symbol, shapes) => {
    expect(shapes.split(' ')).toContain(frets(firstOf(id, symbol)));
  });
});

/** Fingers from the lowest string on, 0 where none is. */
const HELD: readonly (readonly [string, Chart])[] = [
  [
    'ukulele',
    {
      Em: '0321',
      Dm: '2310',
      Gm: '0231',
      Cm: '0111',
      Gmaj7: '0111',
      'F#m': '2130',
      Dmaj7: '1113',
      Gm7: '0211',
      Bb6: '0211',
      Dm7: '2314',
      Fsus4: '3012',
      Cm6: '1234',
      E9: '1234',
    },
  ],
  [
    'guitar',
    {
      C: '032010',
      D: '000132',
      E: '023100',
      F: '134211',
      A: '001230',
      Am: '002310',
      Dm: '000231',
      Bm: '013421',
      Dm7: '000211',
    },
  ],
];

describe.each(HELD)('on %s', (id, chart) => {
  test.each(Object.entries(chart))('%s is held with %s', (symbol, held) => {
    expect(fingers(firstOf(id, symbol))).toBe(held);
  });
});
