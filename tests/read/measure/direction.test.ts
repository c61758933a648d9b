/** Words, signs, tempo and dynamics: what the reader makes of `<direction>`. */
import { describe, expect, test } from 'vitest';
import type { Direction } from '../../../src/score/model/direction.ts';
import { attributes, melodyOf, note, partWise, readMeasure, readPart } from '../../support/musicxml.ts';

const measure = (content: string) => readMeasure(`${attributes()}${content}`);

describe('directions', () => {
  const directions = (content: string): readonly Partial<Direction>[] =>
    measure(`${note('C4', 24)}${content}${note('D4', 24)}`).directions.map(({ source: _, ...rest }) => rest);
  const direction = (types: string, after = '') =>
    `<direction placement="above"><direction-type>${types}</direction-type>${after}</direction>`;

  test('words keep their side', () => {
    expect(directions(direction('<words>rit.</words>'))).toEqual([
      { kind: 'words', at: 24, text: 'rit.', placement: 'above' },
    ]);
    expect(directions(direction('<words>dolce</words>').replace('above', 'below'))[0]).toMatchObject({
      placement: 'below',
    });
  });

  test('an offset moves them', () =>
    expect(directions(direction('<words>x</words>', '<offset>6</offset>'))[0]!.at).toBe(30));

  test.each([
    ['D.C. al Fine', 'dacapo="yes"', 'dacapo'],
    ['D.S. al Coda', 'dalsegno="1"', 'dalsegno'],
    ['To Coda', 'tocoda="1"', 'tocoda'],
    ['Fine', 'fine="yes"', 'fine'],
  ])('%s', (text, sound, jump) => {
    const expected = [{ kind: 'jump', at: 24, jump, text }];
    expect(directions(direction(`<words>${text}</words>`, `<sound ${sound}/>`))).toEqual(expected);
    expect(directions(direction(`<words>${text}</words>`))).toEqual(expected);
  });

  test('a jump that only sounds gets the usual words', () =>
    expect(directions('<sound dacapo="yes"/>')).toEqual([
      { kind: 'jump', at: 24, jump: 'dacapo', text: 'D.C.' },
    ]));

  test('words that merely begin like a jump are words', () =>
    expect(directions(direction('<words>Finely</words>'))[0]).toMatchObject({ kind: 'words' }));

  test('signs, also on bar lines', () => {
    expect(directions(direction('<segno/>'))).toEqual([{ kind: 'sign', at: 24, sign: 'segno' }]);
    expect(directions('<barline location="left"><coda/></barline>')).toEqual([
      { kind: 'sign', at: 24, sign: 'coda' },
    ]);
  });

  const quarter = { base: 4, dots: 0, ratio: undefined };

  test('tempo: an equation, words before it, words that sound, and sound alone', () => {
    const equation =
      '<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>ca. 66</per-minute></metronome>';
    const dotted = { base: 4, dots: 1, ratio: undefined };
    expect(directions(direction(equation, '<sound tempo="99"/>'))).toEqual([
      { kind: 'tempo', at: 24, perMinute: 66, beat: dotted, text: undefined, printed: true },
    ]);
    expect(directions(direction(`<words>Lento</words></direction-type><direction-type>${equation}`))).toEqual(
      [{ kind: 'tempo', at: 24, perMinute: 66, beat: dotted, text: 'Lento', printed: true }],
    );
    expect(directions(direction('<words>Andante</words>', '<sound tempo="80"/>'))).toEqual([
      { kind: 'tempo', at: 24, perMinute: undefined, beat: quarter, text: 'Andante', printed: true },
      { kind: 'tempo', at: 24, perMinute: 80, beat: quarter, text: undefined, printed: false },
    ]);
    expect(directions('<sound tempo="120"/>')).toEqual([
      { kind: 'tempo', at: 24, perMinute: 120, beat: quarter, text: undefined, printed: false },
    ]);
  });

  test('relations of note values, on which the library gives up, are left out', () => {
    const three = '<beat-unit>quarter</beat-unit>'.repeat(3);
    const two = '<beat-unit>quarter</beat-unit>'.repeat(2);
    const part = readPart(
      `${attributes()}${direction(`<metronome>${three}</metronome>`)}${direction(`<metronome>${two}</metronome>`)}${note('C4', 48)}`,
    );
    expect(part.leftOut!.map(each => each.what)).toEqual([
      'unreadable <direction> elements',
      'tempo relations',
    ]);
  });

  test('rehearsal marks, dynamics, octave shifts', () =>
    expect(
      directions(
        `${direction('<rehearsal>A</rehearsal>')}${direction('<dynamics><mf/></dynamics>')}${direction('<octave-shift type="down" size="8"/>')}${direction('<octave-shift type="stop" size="8"/>')}`,
      ),
    ).toMatchObject([
      { kind: 'rehearsal', text: 'A' },
      { kind: 'dynamic', text: 'mf' },
      { kind: 'octave-shift', octaves: 1, end: false },
      { kind: 'octave-shift', end: true },
    ]));

  test('what is left out is said once for each kind', () => {
    const wedge = direction('<wedge type="crescendo"/>');
    const { diagnostics } = melodyOf(
      partWise(`${attributes()}${wedge}${note('C4', 48)}`, `${wedge}${note('C4', 48)}`),
    );
    expect(diagnostics).toMatchObject([
      {
        severity: 'warning',
        code: 'left-out',
        message: expect.stringMatching(/hairpins.*2/),
        place: { measure: '1' },
      },
    ]);
  });
});
