/** What stands on, above, below and between notes. */
import { describe, expect, test } from 'vitest';
import type { Direction } from '../../src/score/model.ts';
import {
  attributes,
  melodyOf,
  note,
  notesIn,
  partWise,
  read,
  readMeasure,
  readPart,
  scoreOf,
} from '../support/musicxml.ts';

const measure = (content: string) => readMeasure(`${attributes()}${content}`);

describe('bar lines', () => {
  const barline = (location: string, inner: string) =>
    `<barline${location && ` location="${location}"`}>${inner}</barline>`;

  test('repeats, with the number of times', () => {
    const { left, right } = measure(
      `${barline('left', '<bar-style>heavy-light</bar-style><repeat direction="forward"/>')}${note('C4', 48)}${barline('right', '<bar-style>light-heavy</bar-style><repeat direction="backward" times="3"/>')}`,
    );
    expect(left).toMatchObject({ style: 'reverse-final', repeat: true });
    expect(right).toMatchObject({ style: 'final', repeat: true, times: 3 });
  });

  test('without a location are at the right; a repeat that opens before all notes is at the left', () => {
    const { left, right } = measure(
      `${barline('', '<repeat direction="forward"/>')}${note('C4', 48)}${barline('', '<bar-style>light-light</bar-style>')}`,
    );
    expect(left.repeat).toBe(true);
    expect(right.style).toBe('double');
  });

  const ended = (number: string, type: string, text = '') => {
    const part = readPart(
      `${attributes()}${barline('left', `<ending number="${number}" type="start">${text}</ending>`)}${note('C4', 48)}`,
      `${note('C4', 48)}${barline('right', `<ending number="${number}" type="${type}"/>`)}`,
    );
    return [part.measures[0]!.left.ending, part.measures[1]!.right.ending];
  };

  test.each([
    ['1', [1], '1'],
    ['1, 2', [1, 2], '1, 2'],
    ['1,2,3', [1, 2, 3], '1,2,3'],
    ['1-3', [1, 2, 3], '1-3'],
    ['', [], ''],
  ])('endings: "%s"', (list, numbers, text) => {
    expect(ended(list, 'stop')).toMatchObject([
      { numbers, text, close: 'closed' },
      { numbers, text, close: 'closed' },
    ]);
  });

  test('endings that stay open, and their own text', () =>
    expect(ended('2', 'discontinue', 'last time')[1]).toEqual({
      numbers: [2],
      text: 'last time',
      close: 'open',
    }));

  test('endings that the file leaves incomplete are completed or dropped, and said', () => {
    const part = readPart(
      `${attributes()}${note('C4', 48)}${barline('right', '<ending number="1" type="stop"/>')}`,
      `${barline('left', '<ending number="1" type="start"/>')}${note('C4', 48)}`,
      `${note('C4', 48)}${barline('right', '<repeat direction="backward"/>')}`,
      `${barline('left', '<ending number="2" type="start"/>')}${note('C4', 48)}`,
    );
    expect(part.measures.map(({ left, right }) => [left.ending?.text, right.ending?.text])).toEqual([
      [undefined, undefined],
      ['1', undefined],
      [undefined, '1'],
      ['2', '2'],
    ]);
    expect(part.leftOut!.map(({ what, count }) => [what, count])).toEqual([
      ['endings without a start', 1],
      ['endings without an end', 2],
    ]);
  });

  test('within a measure are left out', () => {
    const part = readPart(
      `${attributes()}${note('C4', 24)}${barline('middle', '<bar-style>dotted</bar-style>')}${note('C4', 24)}`,
    );
    expect(part.leftOut).toMatchObject([{ what: 'bar lines within a measure' }]);
  });
});

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

describe('chord symbols', () => {
  const chords = (content: string) =>
    measure(`${content}${note('C4', 48)}`).chordSymbols.map(({ source: _, ...rest }) => rest);
  const root = (step: string, alter = '') =>
    `<root><root-step>${step}</root-step>${alter && `<root-alter>${alter}</root-alter>`}</root>`;

  test('root, kind, text, bass, degrees', () =>
    expect(
      chords(
        `<harmony>${root('F', '1')}<kind text="m7b5">half-diminished</kind><bass><bass-step>A</bass-step></bass><degree><degree-value>9</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></degree><offset>12</offset></harmony>`,
      ),
    ).toEqual([
      {
        at: 12,
        root: { step: 'F', alter: 1 },
        kind: 'half-diminished',
        text: 'm7b5',
        bass: { step: 'A', alter: 0 },
        degrees: [{ value: 9, alter: -1, type: 'add' }],
      },
    ]));

  test('text that is empty is not text that is absent', () => {
    expect(chords(`<harmony>${root('C')}<kind text="">major</kind></harmony>`)[0]!.text).toBe('');
    expect(chords(`<harmony>${root('C')}<kind>major</kind></harmony>`)[0]!.text).toBeUndefined();
  });

  test('no chord', () =>
    expect(chords(`<harmony>${root('C')}<kind text="N.C.">none</kind></harmony>`)[0]).toMatchObject({
      root: undefined,
      kind: 'none',
    }));

  test('several chords in one element', () =>
    expect(
      chords(
        `<harmony>${root('C')}<kind>major</kind>${root('G')}<kind>dominant</kind><offset>12</offset></harmony>`,
      ),
    ).toMatchObject([
      { at: 12, root: { step: 'C' }, kind: 'major' },
      { at: 12, root: { step: 'G' }, kind: 'dominant' },
    ]));

  test('a kind that MusicXML does not know keeps its name as text', () =>
    expect(chords(`<harmony>${root('C')}<kind>maj7</kind></harmony>`)[0]).toMatchObject({
      kind: 'other',
      text: 'maj7',
    }));

  test('functions are left out', () => {
    const part = readPart(
      `${attributes()}<harmony><function>IV</function><kind>major</kind></harmony>${note('C4', 48)}`,
    );
    expect(part.measures[0]!.chordSymbols).toEqual([]);
    expect(part.leftOut).toMatchObject([{ what: 'chords named by degree or function' }]);
  });

  test.each([
    root('F', '999999999'),
    root('F', '0.5'),
    `${root('F')}<bass><bass-step>A</bass-step><bass-alter>-999999999</bass-alter></bass>`,
    `${root('F')}<degree><degree-value>9</degree-value><degree-alter>3</degree-alter></degree>`,
    `${root('F')}<degree><degree-value>NaN</degree-value></degree>`,
  ])('%s cannot be read, and is left out whole', content => {
    const part = readPart(`${attributes()}<harmony>${content}</harmony>${note('C4', 48)}`);
    expect(part.measures[0]!.chordSymbols).toEqual([]);
    expect(part.leftOut).toMatchObject([{ what: 'unreadable chord symbols' }]);
  });
});

describe('lyrics', () => {
  const lyrics = (content: string) => notesIn(measure(note('C4', 48, { rest: content })))[0]!.lyrics;

  test('every verse, by the name it has', () =>
    expect(
      lyrics(
        '<lyric number="1"><syllabic>begin</syllabic><text>Sea</text></lyric><lyric number="part2verse1"><text>Salt</text><extend/></lyric><lyric name="chorus"><syllabic>end</syllabic><text>marsh</text></lyric>',
      ),
    ).toEqual([
      { verse: '1', text: 'Sea', syllabic: 'begin', extend: false },
      { verse: 'part2verse1', text: 'Salt', syllabic: 'single', extend: true },
      { verse: 'chorus', text: 'marsh', syllabic: 'end', extend: false },
    ]));

  test('elisions join syllables', () =>
    expect(
      lyrics(
        '<lyric><syllabic>end</syllabic><text>a</text><elision> </elision><syllabic>begin</syllabic><text>b</text></lyric>',
      ),
    ).toEqual([{ verse: '1', text: 'a\u203fb', syllabic: 'middle', extend: false }]));

  test('an extender alone is no lyric', () =>
    expect(lyrics('<lyric><extend type="stop"/></lyric>')).toEqual([]));
});

describe('notations', () => {
  const notation = (inner: string) =>
    notesIn(measure(note('C4', 48, { rest: `<notations>${inner}</notations>` })))[0]!;

  test('articulations and fermatas', () =>
    expect(
      notation('<articulations><accent/><staccato/><strong-accent/><breath-mark/></articulations><fermata/>'),
    ).toMatchObject({ articulations: ['staccato', 'accent', 'marcato', 'breath'], fermata: true }));

  test('string, fret and finger', () => {
    const marked = (inner: string) => notation(`<technical>${inner}</technical>`).heads[0]!.marked;
    expect(marked('<fingering>3</fingering><string>2</string><fret>0</fret>')).toEqual({
      string: 2,
      fret: 0,
      finger: 3,
    });
    expect(marked('<fingering>p</fingering><string>0</string>')).toEqual({
      string: undefined,
      fret: undefined,
      finger: undefined,
    });
  });

  test('beams, one mark a level', () => {
    const [first] = notesIn(
      measure(note('C4', 3, { rest: '<beam number="1">begin</beam><beam number="2">forward hook</beam>' })),
    );
    expect(first!.beams).toEqual(['begin', 'forward hook']);
  });

  const slur = (type: string, number = 1) => `<slur type="${type}" number="${number}"/>`;
  const with_ = (inner: string) => ({ rest: `<notations>${inner}</notations>` });

  test('slurs by number, one note ending one and starting the next', () => {
    const part = readPart(
      `${attributes()}${note('C4', 12, with_(slur('start')))}${note('D4', 12, with_(slur('stop') + slur('start')))}${note('E4', 12, with_(slur('start', 2)))}`,
      `${note('F4', 24, with_(slur('stop', 2)))}${note('G4', 24, with_(slur('stop')))}`,
    );
    const [c, d, e, f, g] = part.measures.flatMap(each => notesIn(each).map(({ id }) => id));
    expect(part.slurs.map(({ from, to }) => [from, to])).toEqual([
      [c, d],
      [d, g],
      [e, f],
    ]);
  });

  test('slurs without an end are left out', () => {
    const part = readPart(`${attributes()}${note('C4', 48, with_(slur('start')))}`);
    expect(part.slurs).toEqual([]);
    expect(part.leftOut).toMatchObject([{ what: 'slurs without an end', count: 1 }]);
  });

  test('nested tuplets: depth, and numbers from what is printed or from the ratio', () => {
    const modified = (actual: number, normal: number) =>
      `<type>eighth</type><time-modification><actual-notes>${actual}</actual-notes><normal-notes>${normal}</normal-notes></time-modification>`;
    const tuplet = (type: string, number: number, inner = '') =>
      `<tuplet type="${type}" number="${number}" bracket="yes">${inner}</tuplet>`;
    const outer =
      '<tuplet-actual><tuplet-number>3</tuplet-number></tuplet-actual><tuplet-normal><tuplet-number>2</tuplet-number></tuplet-normal>';
    const part = readPart(
      `<attributes><divisions>30</divisions></attributes>${note('C4', 10, { rest: `${modified(3, 2)}<notations>${tuplet('start', 1, outer)}</notations>` })}${note('D4', 4, { rest: `${modified(15, 8)}<notations>${tuplet('start', 2)}</notations>` })}${note('E4', 4, { rest: `${modified(15, 8)}<notations>${tuplet('stop', 2)}${tuplet('stop', 1)}</notations>` })}`,
    );
    expect(part.tuplets).toMatchObject([
      { actual: 3, normal: 2, depth: 0, show: 'actual', bracket: true },
      { actual: 5, normal: 4, depth: 1 },
    ]);
  });
});

describe('signatures', () => {
  const time = (inner: string, symbol = '') =>
    readPart(attributes(`<time${symbol && ` symbol="${symbol}"`}>${inner}</time>`) + note('C4', 12))
      .measures[0]!.time;

  test('metres of every kind', () => {
    expect(time('<beats>6</beats><beat-type>8</beat-type>')).toEqual({
      kind: 'metred',
      fractions: [{ beats: [6], beatType: 8 }],
      symbol: 'fraction',
    });
    expect(time('<beats>3+2</beats><beat-type>8</beat-type>')).toMatchObject({
      fractions: [{ beats: [3, 2], beatType: 8 }],
    });
    expect(
      time('<beats>3</beats><beat-type>8</beat-type><beats>2</beats><beat-type>4</beat-type>'),
    ).toMatchObject({
      fractions: [
        { beats: [3], beatType: 8 },
        { beats: [2], beatType: 4 },
      ],
    });
    expect(time('<beats>2</beats><beat-type>2</beat-type>', 'cut')).toMatchObject({ symbol: 'cut' });
    expect(time('<senza-misura/>')).toEqual({ kind: 'senza-misura' });
    expect(time('<beats>0</beats><beat-type>4</beat-type>')).toBeUndefined();
  });

  test('changes are listed where something changes, also within a measure', () => {
    const key = (fifths: number) =>
      `<attributes><key><fifths>${fifths}</fifths><mode>major</mode></key></attributes>`;
    const part = readPart(
      `${attributes('<key><fifths>1</fifths><mode>major</mode></key>')}${note('C4', 24)}${key(2)}${note('C4', 24)}`,
      `${key(2)}${note('C4', 48)}`,
      `${key(-1)}${note('C4', 48)}`,
    );
    expect(
      part.measures.map(({ key, changes }) => [key.fifths, changes.map(each => [each.at, each.key?.fifths])]),
    ).toEqual([
      [1, [[24, 2]]],
      [2, []],
      [-1, [[0, -1]]],
    ]);
  });

  test('keys that are no circle-of-fifths keys are left out; the notes say what sounds', () => {
    const part = readPart(
      `${attributes('<key><key-step>B</key-step><key-alter>-1</key-alter></key>')}${note('Bb3', 48)}`,
    );
    expect(part.measures[0]!.key.fifths).toBe(0);
    expect(part.leftOut).toHaveLength(1);
  });
});

describe('heading', () => {
  const heading = (header: string) => {
    const {
      parts: _,
      division: __,
      ...rest
    } = read(scoreOf('', `<part id="P1"><measure number="1">${note('C4')}</measure></part>`, header));
    return rest;
  };

  test('titles and names', () =>
    expect(
      heading(
        '<work><work-title> The  Marsh </work-title></work><movement-title>Other</movement-title><identification><creator type="composer">A</creator><creator type="lyricist">B</creator><creator type="arranger">C</creator><creator/><rights>Free</rights><rights>Public</rights></identification>',
      ),
    ).toEqual({
      title: 'The Marsh',
      composer: 'A',
      lyricist: 'B',
      arranger: 'C',
      rights: ['Free', 'Public'],
    }));

  test('the movement is the title of a work without one', () =>
    expect(heading('<work/><movement-title>Air</movement-title>')).toEqual({ title: 'Air', rights: [] }));

  test('else what the first page prints: by what it says it is, or by size', () => {
    const credit = (words: string, type = '', size = 12) =>
      `<credit page="1">${type && `<credit-type>${type}</credit-type>`}<credit-words font-size="${size}">${words}</credit-words></credit>`;
    expect(heading(credit('Trad.', 'composer') + credit('Air', 'title'))).toMatchObject({
      title: 'Air',
      composer: 'Trad.',
    });
    expect(heading(credit('small') + credit('Large', '', 24))).toMatchObject({ title: 'Large' });
  });
});

test('breaks stand before the measure that follows them', () =>
  expect(
    readPart(
      `<print new-system="yes"/>${note('C4')}`,
      `<print new-system="yes"/>${note('C4')}`,
      `<print new-page="yes"/>${note('C4')}`,
    ).measures.map(each => each.breakBefore),
  ).toEqual([undefined, 'system', 'page']));
