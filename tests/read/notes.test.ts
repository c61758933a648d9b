/** Notes, rests and time: what the reader makes of `<note>`, `<backup>`, `<forward>` and `<attributes>`. */
import { describe, expect, test } from 'vitest';
import { pitchName } from '../../src/score/pitch.ts';
import {
  attributes,
  melodyOf,
  note,
  notesIn,
  partWise,
  read,
  readMeasure,
  readPart,
  refused,
  tuneFrom,
  words,
} from '../support/musicxml.ts';

const voice = (id: string, staff?: number): string =>
  `<voice>${id}</voice>${staff === undefined ? '' : `<type>quarter</type><staff>${staff}</staff>`}`;

const backup = (ticks: number): string => `<backup><duration>${ticks}</duration></backup>`;
const forward = (ticks: number): string => `<forward><duration>${ticks}</duration></forward>`;

describe('time', () => {
  test('divisions that change are brought to their least common multiple', () => {
    const score = read(
      partWise(
        `<attributes><divisions>4</divisions></attributes>${note('C4', 16)}`,
        `<attributes><divisions>6</divisions></attributes>${note('D4', 12)}${note('E4', 4)}${note('F4', 8)}`,
      ),
    );
    expect(score.division).toBe(12);
    expect(score.parts[0]!.measures.map(measure => notesIn(measure).map(each => each.duration))).toEqual([
      [48],
      [24, 8, 16],
    ]);
  });

  test('fractional durations are made whole', () => {
    const score = read(
      partWise(`<attributes><divisions>1</divisions></attributes>${note('C4', 0.5)}${note('D4', 1.5)}`),
    );
    expect(score.division).toBe(2);
    expect(notesIn(score.parts[0]!.measures[0]!).map(each => [each.at, each.duration])).toEqual([
      [0, 1],
      [1, 3],
    ]);
  });

  test('without divisions, a quarter note is 1', () =>
    expect(notesIn(readMeasure(note('C4', 4)))[0]).toMatchObject({ value: { base: 1 }, duration: 4 }));

  test.each([
    ['bad-duration', note('C4', -12)],
    ['bad-duration', note('C4', 0)],
    ['bad-duration', '<note><pitch><step>C</step><octave>4</octave></pitch><duration>x</duration></note>'],
    ['bad-duration', '<backup/>'],
    ['bad-divisions', `<attributes><divisions>0</divisions></attributes>${note('C4')}`],
    ['bad-divisions', `<attributes><divisions>-4</divisions></attributes>${note('C4')}`],
    ['bad-divisions', `<attributes><divisions>x</divisions></attributes>${note('C4')}`],
    ['bad-pitch', '<note><pitch><step>H</step><octave>4</octave></pitch><duration>1</duration></note>'],
    ['bad-pitch', '<note><pitch><step>C</step></pitch><duration>1</duration></note>'],
  ])('%s is refused with its place: %s', (code, content) => {
    const [diagnostic] = refused(() => readMeasure(content));
    expect(diagnostic).toMatchObject({ code, place: { line: 1, part: 'P1', measure: '1' } });
    expect(diagnostic!.hint).toBeTruthy();
  });

  test('divisions without a common measure that can be counted are refused', () => {
    const measures = [65_521, 65_519, 65_497].map(
      each => `<attributes><divisions>${each}</divisions></attributes>${note('C4', each)}`,
    );
    expect(refused(() => readPart(...measures))[0]).toMatchObject({
      code: 'too-fine-divisions',
      place: { measure: '3' },
    });
  });

  test('a measure is as long as its longest voice, in any part', () => {
    const measure = readMeasure(
      `${attributes()}${note('C4', 12, { after: voice('1') })}${backup(12)}${note('E3', 36, { after: voice('2') })}`,
    );
    expect(measure.length).toBe(36);
    expect(
      readPart(`${attributes()}${note('C4', 12)}`, note('D4', 48)).measures.map(each => each.at),
    ).toEqual([0, 12]);
  });

  test('a gap at the end fills the measure too', () =>
    expect(readMeasure(`${attributes()}${note('C4', 12)}${forward(36)}`).length).toBe(48));

  test('an empty measure has the length of the metre', () =>
    expect(
      readPart(attributes('<time><beats>3</beats><beat-type>8</beat-type></time>')).measures[0]!.length,
    ).toBe(1.5 * 12));
});

describe('values', () => {
  const value = (rest: string, duration = 12) =>
    notesIn(readMeasure(`${attributes()}${note('C4', duration, { rest })}`))[0]!.value;

  test('as the file gives them', () => {
    expect(value('<type>half</type><dot/><dot/>', 42)).toEqual({ base: 2, dots: 2, ratio: undefined });
    expect(value('<type>breve</type>', 96)).toMatchObject({ base: 0.5 });
    expect(value('<type>1024th</type>', 1)).toMatchObject({ base: 1024 });
  });

  test.each([
    [12, { base: 4, dots: 0 }],
    [18, { base: 4, dots: 1 }],
    [21, { base: 4, dots: 2 }],
    [3, { base: 16, dots: 0 }],
    [8, { base: 4, dots: 0, ratio: { actual: 3, normal: 2 } }],
    [4, { base: 8, dots: 0, ratio: { actual: 3, normal: 2 } }],
    [96, { base: 0.5, dots: 0 }],
  ])('derived from %i ticks where the type is missing', (ticks, expected) =>
    expect(value('', ticks)).toMatchObject(expected),
  );

  test('derived with the ratio that is given', () =>
    expect(
      value(
        '<time-modification><actual-notes>6</actual-notes><normal-notes>4</normal-notes></time-modification>',
        2,
      ),
    ).toEqual({ base: 16, dots: 0, ratio: { actual: 6, normal: 4 } }));

  test('a length that no value has keeps its time, and is said', () => {
    const part = readPart(`${attributes()}${note('C4', 15)}`);
    expect(notesIn(part.measures[0]!)[0]).toMatchObject({ duration: 15, value: { base: 4, dots: 0 } });
    expect(part.leftOut).toMatchObject([{ what: 'durations that no single note value shows', count: 1 }]);
  });
});

describe('chords, grace and cue notes', () => {
  test('heads of a chord lie from the lowest up, whatever their order in the file', () => {
    const [chord, next] = notesIn(
      readMeasure(
        `${attributes()}${note('G4')}${note('C5', 12, { before: '<chord/>' })}${note('E4', 12, { before: '<chord/>' })}${note('D4')}`,
      ),
    );
    expect(chord!.heads.map(head => pitchName(head.pitch))).toEqual(['E4', 'G4', 'C5']);
    expect(next!.at).toBe(12);
  });

  test('grace notes stand before their note, and take no time', () => {
    const events = notesIn(
      readMeasure(
        `${attributes()}${note('D4', 0, { before: '<grace slash="yes"/>' })}${note('E4', 0, { before: '<grace/>' })}${note('C4', 48)}${note('F4', 0, { before: '<grace/>' })}`,
      ),
    );
    expect(events.map(({ at, duration, grace }) => [at, duration, grace])).toEqual([
      [0, 0, 'slashed'],
      [0, 0, 'plain'],
      [0, 48, undefined],
      [48, 0, 'plain'],
    ]);
    expect(events[0]!.value).toEqual({ base: 8, dots: 0, ratio: undefined });
  });

  test('cue notes are kept apart', () =>
    expect(notesIn(readMeasure(`${attributes()}${note('C4', 12, { before: '<cue/>' })}`))[0]!.cue).toBe(
      true,
    ));
});

describe('rests', () => {
  const first = (content: string) => readMeasure(content).voices[0]!.events[0]!;

  test.each([
    ['said', `${attributes()}<note><rest measure="yes"/><duration>48</duration></note>`],
    ['without a type', `${attributes()}${note('r', 48)}`],
    ['a whole rest', `${attributes()}${note('r', 48, { rest: '<type>whole</type>' })}`],
    [
      'a whole rest in 3/4',
      `${attributes('<time><beats>3</beats><beat-type>4</beat-type></time>')}${note('r', 36, { rest: '<type>whole</type>' })}`,
    ],
  ])('a whole-measure rest: %s', (_, content) =>
    expect(first(content)).toMatchObject({ kind: 'rest', wholeMeasure: true, value: undefined, at: 0 }),
  );

  test('as long as the measure, when the file makes it a whole note', () => {
    const content = `${attributes('<time><beats>3</beats><beat-type>4</beat-type></time>')}<note><rest measure="yes"/><duration>48</duration></note>`;
    expect(first(content).duration).toBe(36);
  });

  test('others keep their value', () =>
    expect(
      first(`${attributes()}${note('r', 12, { rest: '<type>quarter</type>' })}${note('C4', 36)}`),
    ).toMatchObject({
      wholeMeasure: false,
      value: { base: 4 },
    }));
});

describe('voices', () => {
  test('are what the file numbers, in the order in which they appear', () => {
    const { voices } = readMeasure(
      `${attributes()}${note('C4', 48, { after: voice('5') })}${backup(48)}${note('E3', 48, { after: voice('low') })}`,
    );
    expect(voices.map(each => each.id)).toEqual(['5', 'low']);
  });

  test('stay one voice across staves', () => {
    const { voices } = readMeasure(
      `${attributes()}${note('C4', 24, { after: voice('1', 1) })}${note('C3', 24, { after: voice('1', 2) })}`,
    );
    expect(voices).toMatchObject([{ id: '1', staff: 1, events: [{ at: 0 }, { at: 24 }] }]);
  });

  test('are told apart where staves use one number at the same time, in every measure', () => {
    const part = readPart(
      `${attributes()}${note('C4', 48, { after: voice('1', 1) })}${backup(48)}${note('C3', 48, { after: voice('1', 2) })}`,
      note('D3', 48, { after: voice('1', 2) }),
    );
    expect(part.measures.map(each => each.voices.map(({ id }) => id))).toEqual([['1', '1/2'], ['1/2']]);
  });

  test('make voices of their own where they overlap', () => {
    const { voices } = readMeasure(`${attributes()}${note('C4', 48)}${backup(48)}${note('E4', 48)}`);
    expect(voices.map(each => each.id)).toEqual(['1', '1b']);
  });

  test('may start within a measure', () => {
    const { voices } = readMeasure(`${attributes()}${forward(24)}${note('C4', 24)}`);
    expect(voices[0]!.events).toMatchObject([{ at: 24, duration: 24 }]);
  });
});

describe('ties', () => {
  const start = { after: '<tie type="start"/>' };
  const stop = { after: '<tie type="stop"/>' };
  const headsOf = (...measures: readonly string[]) =>
    readPart(...measures).measures.flatMap(measure => notesIn(measure).flatMap(each => each.heads));

  test('join the nearest heads of one pitch', () => {
    const [a, b, c] = headsOf(
      `${attributes()}${note('C4', 12, start)}${note('C4', 36, stop)}`,
      note('C4', 48),
    );
    expect([a!.tieTo, b!.tieFrom, c!.tieFrom]).toEqual([b!.id, a!.id, undefined]);
  });

  test('are also read from how they look', () => {
    const look = (type: string) => ({ rest: `<notations><tied type="${type}"/></notations>` });
    const [a, b] = headsOf(`${attributes()}${note('C4', 24, look('start'))}${note('C4', 24, look('stop'))}`);
    expect(a!.tieTo).toBe(b!.id);
  });

  test('join enharmonic spellings of one sound', () => {
    const [a, b] = headsOf(`${attributes()}${note('C#4', 24, start)}${note('Db4', 24, stop)}`);
    expect(a!.tieTo).toBe(b!.id);
  });

  test('never join two pitches: the second is struck, and the loose ends are said', () => {
    const part = readPart(`${attributes()}${note('C4', 24, start)}${note('D4', 24, stop)}`);
    const [a, b] = notesIn(part.measures[0]!).flatMap(each => each.heads);
    expect(a).toMatchObject({ tieTo: undefined, looseTies: ['start'] });
    expect(b).toMatchObject({ tieFrom: undefined, looseTies: ['stop'] });
    expect(part.leftOut!.map(each => each.what)).toEqual(['ties without a start', 'ties without an end']);
  });

  test('reach into a second ending', () => {
    const ending = (number: number, inner: string, right = '') =>
      `<barline location="left"><ending number="${number}" type="start"/></barline>${inner}<barline location="right"><ending number="${number}" type="stop"/>${right}</barline>`;
    const [a, b, c] = headsOf(
      `${attributes()}${note('C4', 48, start)}`,
      ending(1, note('C4', 48, stop), '<repeat direction="backward"/>'),
      ending(2, note('C4', 48, stop)),
    );
    expect(a!.tieTo).toBe(b!.id);
    expect([b!.tieFrom, c!.tieFrom]).toEqual([a!.id, a!.id]);
  });
});

describe('transposing parts', () => {
  const transposed = (transpose: string, fifths: number, name: string) =>
    readPart(
      `${attributes(`<key><fifths>${fifths}</fifths></key><transpose>${transpose}</transpose>`)}${note(name, 48)}`,
    );

  // MusicXML 4.0, <transpose>: "the number of semitones to be added to written pitch to get sounding pitch".
  test.each([
    ['B flat', '<diatonic>-1</diatonic><chromatic>-2</chromatic>', 2, 'F#4', 0, 'E4', -2],
    ['E flat', '<diatonic>-5</diatonic><chromatic>-9</chromatic>', 3, 'C#5', 0, 'E4', -9],
    ['F', '<diatonic>-4</diatonic><chromatic>-7</chromatic>', 1, 'F#4', 0, 'B3', -7],
    ['octave', '<chromatic>0</chromatic><octave-change>-1</octave-change>', -1, 'Bb3', -1, 'B♭2', -12],
    ['no steps given', '<chromatic>3</chromatic>', 0, 'C4', -3, 'E♭4', 3],
    ['steps that contradict', '<diatonic>5</diatonic><chromatic>-2</chromatic>', 0, 'C4', -2, 'B♭3', -2],
    ['beyond seven sharps', '<diatonic>-2</diatonic><chromatic>-3</chromatic>', 7, 'C#4', -2, 'B♭3', -3],
  ])('%s', (_, transpose, written, name, key, sounding, semitones) => {
    const part = transposed(transpose, written, name);
    expect(part.measures[0]!.key.fifths).toBe(key);
    expect(pitchName(notesIn(part.measures[0]!)[0]!.heads[0]!.pitch)).toBe(sounding);
    expect(part.transposed).toBe(semitones);
  });

  test('chord symbols and later keys follow', () => {
    const part = readPart(
      `${attributes('<key><fifths>2</fifths></key><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>')}<harmony><root><root-step>D</root-step></root><kind>major</kind></harmony>${note('D4', 48)}`,
      `<attributes><key><fifths>-1</fifths></key></attributes>${note('F4', 48)}`,
    );
    expect(part.measures[0]!.chordSymbols[0]!.root).toEqual({ step: 'C', alter: 0 });
    expect(part.measures[1]).toMatchObject({
      key: { fifths: -3 },
      changes: [{ at: 0, key: { fifths: -3 } }],
    });
  });
});

describe('what frets cannot play', () => {
  const quarterTone =
    '<note><pitch><step>C</step><alter>0.5</alter><octave>4</octave></pitch><duration>12</duration><voice>2</voice></note>';
  const unpitched = '<note><unpitched/><duration>12</duration><voice>2</voice></note>';

  test.each([
    ['quarter-tones', quarterTone],
    ['unpitched-notes', unpitched],
  ])('%s are a fault of their voice, and of no other', (code, content) => {
    const xml = partWise(
      `${attributes()}${note('C4', 48, { after: voice('1') })}${backup(48)}${content}${content}${note('E4', 24, { after: voice('2') })}`,
    );
    expect(words(melodyOf(xml).tune)).toBe('C4/48');
    const [diagnostic] = refused(() => melodyOf(xml, { voice: '2' }));
    expect(diagnostic).toMatchObject({ code, place: { measure: '1', line: 1 } });
    expect(diagnostic!.message).toContain('2 notes');
  });

  test('in a chord they are not passed over', () => {
    const chord = quarterTone.replace('<note>', '<note><chord/>').replace('<voice>2</voice>', '');
    const xml = partWise(`${attributes()}${note('C4', 12)}${chord}`);
    expect(refused(() => melodyOf(xml))[0]).toMatchObject({ code: 'quarter-tones' });
  });

  test('a score of percussion alone says so', () =>
    expect(refused(() => tuneFrom(`${attributes()}${unpitched}`))[0]).toMatchObject({
      code: 'unpitched-notes',
    }));
});

describe('accidentals', () => {
  const courtesies = (content: string) =>
    notesIn(readMeasure(`${attributes('<key><fifths>1</fifths></key>')}${content}`)).map(
      each => each.heads[0]!.courtesy,
    );

  test('printed though no rule asks for them are courtesies', () =>
    expect(
      courtesies(
        `${note('F#4', 12, { rest: '<accidental>sharp</accidental>' })}${note('F4', 12, { rest: '<accidental>natural</accidental>' })}${note('F4', 12, { rest: '<accidental>natural</accidental>' })}`,
      ),
    ).toEqual([true, false, true]));

  test('said to be cautionary are courtesies', () =>
    expect(courtesies(note('F4', 12, { rest: '<accidental cautionary="yes">natural</accidental>' }))).toEqual(
      [true],
    ));
});
