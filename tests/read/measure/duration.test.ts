/** Time: divisions, lengths of measures, and the values of notes. */
import { describe, expect, test } from 'vitest';
import {
  attributes,
  note,
  notesIn,
  partWise,
  read,
  readMeasure,
  readPart,
  refused,
} from '../../support/musicxml.ts';

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
    [
      'bad-pitch',
      '<note><pitch><step>C</step><alter>x</alter><octave>4</octave></pitch><duration>1</duration></note>',
    ],
  ])('%s is refused with its place: %s', (code, content) => {
    const [diagnostic] = refused(() => readMeasure(content));
    expect(diagnostic).toMatchObject({ code, place: { line: 1, part: 'P1', measure: '1' } });
    expect(diagnostic!.hint).toBeTruthy();
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/backup/
  test('moves by nothing are none, and moves to before the measure are said', () => {
    const content = `${attributes()}${note('C4', 48)}${forward(0)}${backup(0)}`;
    expect(readMeasure(content).length).toBe(48);
    const part = readPart(`${content}${backup(60)}${note('E3', 48, { after: voice('2') })}`);
    expect(part.measures[0]!.voices[1]!.events[0]!.at).toBe(0);
    expect(part.leftOut).toMatchObject([{ what: 'moves back to before their measure' }]);
  });

  test('a gap at the end makes no measure longer than its metre', () => {
    expect(readMeasure(`${attributes()}${note('C4', 48)}${forward(12)}`).length).toBe(48);
    expect(readMeasure(`${attributes()}${note('C4', 36)}${forward(12)}`).length).toBe(48);
    expect(readMeasure(`${attributes()}${note('C4', 48)}${forward(12)}${note('C4', 12)}`).length).toBe(72);
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
