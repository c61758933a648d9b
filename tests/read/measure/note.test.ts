/** Chords, grace and cue notes, rests and accidentals. */
import { describe, expect, test } from 'vitest';
import { pitchName } from '../../../src/score/pitch.ts';
import { attributes, note, notesIn, readMeasure, readPart, refused } from '../../support/musicxml.ts';

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

describe('what a note says that is not kept', () => {
  const leftOut = (content: string) =>
    readPart(`${attributes()}${content}`).leftOut!.map(({ what, count }) => [what, count]);

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/note/ (print-object, time-only)
  test('notes that are hidden, or for some repeats; hidden rests are rests', () => {
    const marked = (name: string, mark: string) => note(name, 12).replace('<note>', `<note ${mark}>`);
    expect(
      leftOut(
        marked('C4', 'print-object="no"') + marked('r', 'print-object="no"') + marked('D4', 'time-only="2"'),
      ),
    ).toEqual([
      ['marks that notes are not to be printed', 1],
      ['marks that notes are for some repeats alone', 1],
    ]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/chord/
  test('notes shorter than their chord', () => {
    const chord = { before: '<chord/>' };
    expect(leftOut(note('C4', 24) + note('E4', 12, chord) + note('G4', 24, chord))).toEqual([
      ['notes of another length than their chord', 1],
    ]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/type/
  test('values that contradict durations; what divisions can only round does not', () => {
    const type = (name: string) => ({ rest: `<type>${name}</type>` });
    const modified = (actual: number, normal: number) => ({
      rest: `<type>eighth</type><time-modification><actual-notes>${actual}</actual-notes><normal-notes>${normal}</normal-notes></time-modification>`,
    });
    expect(leftOut(note('C4', 12, type('half')) + note('D4', 12, type('quarter')))).toEqual([
      ['note values that contradict how long their notes last', 1],
    ]);
    expect(leftOut(note('C4', 4, modified(3, 2)) + note('C4', 3, modified(7, 4)))).toEqual([]);
    expect(leftOut(note('r', 36, type('whole')) + note('C4', 0, { before: '<grace/>' }))).toEqual([]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/divisions/
  test('without divisions, values that contradict durations are refused', () => {
    const quarter = note('C4', 480, { rest: '<type>quarter</type>' });
    expect(refused(() => readMeasure(quarter))).toMatchObject([
      {
        code: 'bad-divisions',
        place: { line: 1, measure: '1' },
        hint: expect.stringContaining('<divisions>'),
      },
    ]);
  });
});

describe('rests', () => {
  const first = (content: string) => readMeasure(content).voices[0]!.events[0]!;

  test.each([
    ['said', `${attributes()}<note><rest measure="yes"/><duration>48</duration></note>`],
    ['without a type', `${attributes()}${note('r', 48)}`],
    [
      'a whole rest that is too long for 3/4',
      `${attributes('<time><beats>3</beats><beat-type>4</beat-type></time>')}${note('r', 48, { rest: '<type>whole</type>' })}`,
    ],
    ['a whole rest', `${attributes()}${note('r', 48, { rest: '<type>whole</type>' })}`],
    [
      'a whole rest in 3/4',
      `${attributes('<time><beats>3</beats><beat-type>4</beat-type></time>')}${note('r', 36, { rest: '<type>whole</type>' })}`,
    ],
  ])('a whole-measure rest: %s', (_, content) =>
    expect(first(content)).toMatchObject({ kind: 'rest', wholeMeasure: true, value: undefined, at: 0 }),
  );

  test.each([' measure="yes"', ''])('as long as the measure, when the file makes it a whole note', asked => {
    const content = `${attributes('<time><beats>3</beats><beat-type>4</beat-type></time>')}<note><rest${asked}/><duration>48</duration><type>whole</type></note>`;
    expect(first(content).duration).toBe(36);
    expect(readMeasure(content).length).toBe(36);
  });

  test('as long as the metre, though a chord symbol stands at its middle', () => {
    const half = '<duration>24</duration>';
    const chord = '<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>';
    const content = `${attributes()}<forward>${half}</forward>${chord}<backup>${half}</backup>`;
    expect(readMeasure(`${content}<note><rest measure="yes"/><duration>48</duration></note>`)).toMatchObject({
      length: 48,
      chordSymbols: [{ at: 24 }],
    });
  });

  test('others keep their value', () =>
    expect(
      first(`${attributes()}${note('r', 12, { rest: '<type>quarter</type>' })}${note('C4', 36)}`),
    ).toMatchObject({
      wholeMeasure: false,
      value: { base: 4 },
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
