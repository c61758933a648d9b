/** Chords, grace and cue notes, rests and accidentals. */
import { describe, expect, test } from 'vitest';
import { pitchName } from '../../../src/score/pitch.ts';
import { attributes, note, notesIn, readMeasure } from '../../support/musicxml.ts';

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
