/** One small sheet, kept as a person has looked at it: every sign in its place. */

import { expect, it } from 'vitest';
import { toText } from '../../../src/emit/text.ts';
import { PLAIN_BARLINE } from '../../../src/score/model/barline.ts';
import { lowestPlaces, tuneOf } from './tunes.ts';

const ending = (number: number) => ({ numbers: [number], text: String(number), close: 'closed' as const });
const key = { fifths: -1, mode: 'major' };

/** Pickup, repeat, two endings, tie, accidentals, ledger lines, rest, triplet, held syllables, misfits. */
const TUNE = tuneOf(
  [
    { notes: 'C4q/Sing- D4q/ing_', implicit: true, number: '0', key },
    {
      notes: 'F4q.~ F4e Bb4e/low, B4e A5q/high',
      chords: { 0: 'F', 4: 'C7' },
      key,
      left: { ...PLAIN_BARLINE, repeat: true },
    },
    {
      notes: 'C5h/one C6q/more rq',
      key,
      left: { ...PLAIN_BARLINE, ending: ending(1) },
      right: { ...PLAIN_BARLINE, repeat: true, ending: ending(1) },
    },
    {
      notes: 'F4e3/last_ G4e3 A4e3 F4h.',
      key,
      left: { ...PLAIN_BARLINE, ending: ending(2) },
      right: { ...PLAIN_BARLINE, style: 'final', ending: ending(2) },
    },
  ],
  { title: 'Small tune', composer: 'Nobody', rights: ['Public domain'] },
);

const sheet = (ascii: boolean, tune = TUNE, width = 90): readonly string[] =>
  toText(tune, lowestPlaces(tune, undefined, { low: 1, high: 15 }), {
    sheet: 'tab',
    width,
    ascii,
    paint: (_, text) => text,
  }).split('\n');

it('in Unicode', () => {
  expect(sheet(false)).toEqual([
    'Small tune                                                                        Nobody',
    'Ukulele, high G · G4 C4 E4 A4 · frets 1–15',
    '',
    '                                             ┌1.────────────────┐ ┌2.─────────────────┐ ',
    '                         F              C7                                              ',
    '                                                     ─●─                                ',
    '                                                                                        ',
    '                                       ─●─           ───                                ',
    '                                                                                        ',
    '  ┌──────────────────┰┬──────────────────────┬───────────────────┬┰───────────────────┬┒',
    '  │                  ┃│                      │                   │┃                   │┃',
    '  ├─────4────────────╂┼──────────────────────┼───────────────────┼╂───────────────────┼┨',
    '  │                  ┃│•                     │ ○                •│┃                   │┃',
    '  ├───♭──────────────╂┼───────────●─♮●───────┼─────────────r─────┼╂───────────────────┼┨',
    '  │                  ┃│•                     │                  •│┃       ●           │┃',
    '  ├─G───4────────────╂┼──────────────────────┼───────────────────┼╂────●──────────────┼┨',
    '  │                  ┃│  ●     ●             │                   │┃ ●        ○        │┃',
    '  └──────────────────┸┴──────────────────────┴───────────────────┴┸───────────────────┴┚',
    '                ●                                                                       ',
    '          ─●─                                                                           ',
    '           q    q        q.~~~~e  e  e  q      h      q    rq       e  e  e  h.         ',
    '                                                                    └──3──┘             ',
    '           Sing-ing_____________  low,  high   one    more          last______          ',
    'A ┌──────────────────┰┬───────────1──2──12───┬─3──────15─────────┬┰───────0*──────────┬┒',
    'E ├──────────────────╂┼•─1───────────────────┼──────────────────•┼╂─1────────1────────┼┨',
    'C ├────────0*───2────╂┼•─────────────────────┼──────────────────•┼╂───────────────────┼┨',
    'G └──────────────────┸┴──────────────────────┴───────────────────┴┸────0*─────────────┴┚',
    '',
    'h half   q quarter   e eighth   . dotted   r rest   ~ tied   * outside frets 1–15',
    'Public domain',
    '',
  ]);
});

it('in seven bits', () => {
  expect(sheet(true)).toEqual([
    'Small tune                                                                        Nobody',
    'Ukulele, high G - G4 C4 E4 A4 - frets 1-15',
    '',
    '                                             |1.----------------| |2.-----------------| ',
    '                         F              C7                                              ',
    '                                                     -@-                                ',
    '                                                                                        ',
    '                                       -@-           ---                                ',
    '                                                                                        ',
    '  |------------------[|----------------------|-------------------|]-------------------|]',
    '  |                  [|                      |                   |]                   |]',
    '  |-----4------------[|----------------------|-------------------|]-------------------|]',
    '  |                  [|o                     | O                o|]                   |]',
    '  |---b--------------[|-----------@-n@-------|-------------r-----|]-------------------|]',
    '  |                  [|o                     |                  o|]       @           |]',
    '  |-G---4------------[|----------------------|-------------------|]----@--------------|]',
    '  |                  [|  @     @             |                   |] @        O        |]',
    '  |------------------[|----------------------|-------------------|]-------------------|]',
    '                @                                                                       ',
    '          -@-                                                                           ',
    '           q    q        q.~~~~e  e  e  q      h      q    rq       e  e  e  h.         ',
    '                                                                    \\__3__/             ',
    '           Sing-ing_____________  low,  high   one    more          last______          ',
    'A |------------------[|-----------1--2--12---|-3------15---------|]-------0*----------|]',
    'E |------------------[|o-1-------------------|------------------o|]-1--------1--------|]',
    'C |--------0*---2----[|o---------------------|------------------o|]-------------------|]',
    'G |------------------[|----------------------|-------------------|]----0*-------------|]',
    '',
    'h half   q quarter   e eighth   . dotted   r rest   ~ tied   * outside frets 1-15',
    'Public domain',
    '',
  ]);
});

it('names at its head all who made the tune, below the title where there is no room beside it', () => {
  const tune = { ...TUNE, lyricist: 'Somebody else' };
  expect(sheet(false, tune)[0]).toMatch(/^Small tune {40,}Nobody · Words: Somebody else$/);
  expect(sheet(true, tune, 40).slice(0, 2)).toEqual(['Small tune', 'Nobody - Words: Somebody else']);
});
