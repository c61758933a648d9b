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

  test('relations of note values are left out', () => {
    const three = '<beat-unit>quarter</beat-unit>'.repeat(3);
    const two = '<beat-unit>quarter</beat-unit>'.repeat(2);
    const notes =
      '<metronome-note><metronome-type>eighth</metronome-type></metronome-note><metronome-relation>equals</metronome-relation>';
    const metronome = (inner: string) => direction(`<metronome>${inner}</metronome>`);
    const part = readPart(
      `${attributes()}${metronome(three)}${metronome(two)}${metronome(notes)}${note('C4', 48)}`,
    );
    expect(part.leftOut).toMatchObject([{ what: 'tempo relations', count: 3 }]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/metronome/ (print-object)
  test('a metronome mark that is not printed only sounds', () => {
    const hidden =
      '<metronome print-object="no"><beat-unit>half</beat-unit><per-minute>50</per-minute></metronome>';
    const sounds = { kind: 'tempo', perMinute: 50, beat: { base: 2 }, printed: false };
    expect(directions(direction(hidden))).toMatchObject([sounds]);
    expect(
      directions(direction(`<words>Lento</words></direction-type><direction-type>${hidden}`)),
    ).toMatchObject([{ kind: 'tempo', text: 'Lento', printed: true }, sounds]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/symbol/
  test('signs that are symbols of a music font, or characters among words', () => {
    const segno = { kind: 'sign', sign: 'segno' };
    const symbol = (name: string) => `<symbol>${name}</symbol>`;
    expect(directions(direction(symbol('segno')))).toMatchObject([segno]);
    expect(directions(direction('<words>\u{1d10b}</words>'))).toMatchObject([segno]);
    expect(directions(direction('<words>\u{1d10c} Coda</words>'))).toMatchObject([
      { kind: 'sign', sign: 'coda' },
      { kind: 'words', text: 'Coda' },
    ]);
    const toCoda = [{ kind: 'jump', jump: 'tocoda', text: 'To Coda' }];
    expect(directions(direction(`<words>To </words>${symbol('coda')}`))).toMatchObject(toCoda);
    expect(directions(direction('<words>To \u{1d10c}</words>'))).toMatchObject(toCoda);
    expect(directions(direction(symbol('coda'), '<sound tocoda="coda"/>'))).toMatchObject(toCoda);
    const other = readPart(`${attributes()}${direction(symbol('keyboardPedalPed'))}${note('C4', 48)}`);
    expect(other.leftOut).toMatchObject([{ what: 'pictures and signs' }]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/sound/ (segno, coda)
  test('signs to which only playing leads are there, once', () => {
    const segno = { kind: 'sign', sign: 'segno' };
    expect(directions('<sound segno="1"/>')).toMatchObject([segno]);
    expect(directions(direction('<words>Sign</words>', '<sound segno="1"/>'))).toMatchObject([
      segno,
      { kind: 'words', text: 'Sign' },
    ]);
    expect(directions(direction('<segno/>', '<sound segno="1"/>') + direction('<segno/>'))).toMatchObject([
      segno,
    ]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/swing/
  test('swing is said', () => {
    const swing = (inner: string) =>
      readPart(`${attributes()}<sound><swing>${inner}</swing></sound>${note('C4', 48)}`).leftOut;
    expect(swing('<first>2</first><second>1</second>')).toMatchObject([{ what: 'swung rhythms' }]);
    expect(swing('<straight/>')).toEqual([]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/dynamics/
  test.each([
    ['<f/>', 'f'],
    ['<f/><p/>', 'fp'],
    ['<n/>', 'n'],
    ['<sfzp/>', 'sfzp'],
    ['<other-dynamics>quasi f</other-dynamics>', 'quasi f'],
  ])('dynamics %s', (inner, text) =>
    expect(directions(direction(`<dynamics>${inner}</dynamics>`))).toMatchObject([{ kind: 'dynamic', text }]),
  );

  test('empty words and rehearsal marks are nothing', () =>
    expect(directions(direction('<words> </words>') + direction('<rehearsal/>'))).toEqual([]));

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/direction-type/
  test('a span that is left out is counted once, and what the standard adds is counted', () => {
    const spans = (name: string, ...types: readonly string[]) =>
      types.map(type => direction(`<${name} type="${type}"/>`)).join('');
    const part = readPart(
      `${attributes()}${spans('wedge', 'crescendo', 'stop')}${spans('pedal', 'start', 'change', 'stop')}${spans('dashes', 'start', 'continue', 'stop')}${spans('staff-divide', 'down')}${note('C4', 48)}`,
    );
    expect(part.leftOut!.map(({ what, count }) => [what, count])).toEqual([
      ['hairpins', 1],
      ['pedal marks', 1],
      ['dashed lines and brackets', 1],
      ['other directions', 1],
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
