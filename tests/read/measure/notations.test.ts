/** What hangs on notes: `<lyric>` and `<notations>`. */
import { describe, expect, test } from 'vitest';
import { attributes, note, notesIn, readMeasure, readPart } from '../../support/musicxml.ts';

const measure = (content: string) => readMeasure(`${attributes()}${content}`);

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

  test('a syllable that a chord has on each of its notes is sung once', () => {
    const lyric = (text: string) => ({ rest: `<lyric><text>${text}</text></lyric>` });
    const chord = (second: string) =>
      notesIn(
        measure(note('C4', 48, lyric('sea')) + note('E4', 48, { before: '<chord/>', ...lyric(second) })),
      )[0]!.lyrics;
    expect(chord('sea').map(({ text }) => text)).toEqual(['sea']);
    expect(chord('marsh').map(({ text }) => text)).toEqual(['sea', 'marsh']);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/lyric/
  test('humming, and syllables under rests, are said', () => {
    const part = readPart(
      `${attributes()}${note('C4', 24, { rest: '<lyric><humming/></lyric>' })}${note('r', 24, { rest: '<lyric><text>(spoken)</text></lyric>' })}`,
    );
    expect(part.leftOut).toMatchObject([{ what: 'humming and laughing' }, { what: 'lyrics under rests' }]);
  });

  test('verses without a name are told apart by their order', () =>
    expect(
      lyrics('<lyric><text>one</text></lyric><lyric><extend/></lyric><lyric><text>three</text></lyric>').map(
        ({ verse, text }) => [verse, text],
      ),
    ).toEqual([
      ['1', 'one'],
      ['3', 'three'],
    ]));

  test('an extender alone is no lyric', () =>
    expect(lyrics('<lyric><extend type="stop"/></lyric>')).toEqual([]));
});

describe('notations', () => {
  const with_ = (inner: string) => ({ rest: `<notations>${inner}</notations>` });
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

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/fingering/
  test('of several fingers, the first that is neither another way nor a change', () =>
    expect(
      notation(
        '<technical><fingering alternate="yes">2</fingering><fingering>1</fingering><fingering substitution="yes">3</fingering></technical>',
      ).heads[0]!.marked.finger,
    ).toBe(1));

  const leftOut = (...marks: readonly string[]) =>
    readPart(`${attributes()}${marks.map(mark => note('C4', 12, with_(mark))).join('')}`).leftOut!.map(
      ({ what, count }) => [what, count],
    );

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/technical/
  test('techniques that are not kept are named, spans once', () =>
    expect(
      leftOut(
        '<technical><string>1</string><hammer-on type="start">H</hammer-on></technical>',
        '<technical><hammer-on type="stop"/><pull-off type="start">P</pull-off></technical>',
        '<technical><pull-off type="stop"/><bend><bend-alter>2</bend-alter></bend></technical>',
        '<technical><harmonic><natural/></harmonic><up-bow/><brass-bend/></technical>',
      ),
    ).toEqual([
      ['hammer-ons and pull-offs', 2],
      ['bends', 1],
      ['harmonics', 1],
      ['other playing techniques', 1],
    ]));

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/articulations/ (soft-accent)
  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/data-types/tied-type/ (let-ring)
  test('what else is not kept is named', () =>
    expect(
      leftOut(
        '<articulations><soft-accent/></articulations><tied type="let-ring"/>',
        '<ornaments><trill-mark/><wavy-line type="start"/></ornaments><slide type="start"/>',
        '<ornaments><wavy-line type="stop"/></ornaments><slide type="stop"/>',
        '<other-notation type="single">x</other-notation>',
      ),
    ).toEqual([
      ['less common articulations', 1],
      ['let-ring ties', 1],
      ['ornaments', 1],
      ['slides and glissandos', 1],
      ['other notations', 1],
    ]));

  test('a sign that a chord has on each of its notes counts once', () => {
    const arpeggio = with_('<arpeggiate/>');
    const chord = note('C4', 24, arpeggio) + note('E4', 24, { before: '<chord/>', ...arpeggio });
    expect(readPart(`${attributes()}${chord}${chord}`).leftOut).toMatchObject([
      { what: 'arpeggio signs', count: 2 },
    ]);
  });

  test('beams, one mark a level', () => {
    const [first] = notesIn(
      measure(note('C4', 3, { rest: '<beam number="1">begin</beam><beam number="2">forward hook</beam>' })),
    );
    expect(first!.beams).toEqual(['begin', 'forward hook']);
  });

  const slur = (type: string, number = 1) => `<slur type="${type}" number="${number}"/>`;

  test('slurs: an end does not belong to a later start of its voice', () => {
    const part = readPart(
      `${attributes()}${note('C4', 12, with_(slur('stop')))}${note('D4', 12, with_(slur('start')))}${note('E4', 24)}`,
    );
    expect(part.slurs).toEqual([]);
    expect(part.leftOut!.map(({ what }) => what)).toEqual(['slurs without an end', 'slurs without a start']);
  });

  test('slurs: a note may name the start of its own before the end of the last one', () => {
    // Elements of <notations> have no order: https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/notations/
    const part = readPart(
      `${attributes()}${note('C4', 12, with_(slur('start')))}${note('D4', 12, with_(slur('start') + slur('stop')))}${note('E4', 24, with_(slur('stop')))}`,
    );
    const [c, d, e] = notesIn(part.measures[0]!).map(({ id }) => id);
    expect(part.slurs).toMatchObject([
      { from: c, to: d },
      { from: d, to: e },
    ]);
    expect(part.leftOut).toEqual([]);
  });

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
