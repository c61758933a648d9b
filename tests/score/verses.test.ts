/** Verses by the names that the file gives them. */
import { expect, test } from 'vitest';
import type { MusicEvent } from '../../src/score/model/event.ts';
import { verseOpenings } from '../../src/score/verses.ts';
import { bars } from '../support/melody.ts';

/** A measure of quarter notes for each list; each note has a syllable for each verse that is named. */
type Sung = readonly (readonly string[])[];

const sung = (...measures: readonly Sung[]) =>
  bars(...measures.map(notes => notes.map(() => 'A4').join(' '))).measures.map((measure, index) => ({
    ...measure,
    events: measure.events.map((event, note): MusicEvent => {
      if (event.kind === 'rest') return event;
      const lyrics = measures[index]![note]!.map(verse => ({
        verse,
        text: 'la',
        syllabic: 'single' as const,
        extend: false,
      }));
      return { ...event, lyrics };
    }),
  }));

const openings = (...measures: readonly Sung[]) => [...verseOpenings(sung(...measures))];

test('each verse opens at its first syllable, in whatever measure', () => {
  expect(openings([['1'], ['1']], [['2', '1'], ['2']])).toEqual([
    ['1', 1],
    ['2', 3],
  ]);
});

test('verses come in the order of their numbers, not of their letters', () => {
  expect(openings([['10'], ['2'], ['1']]).map(([verse]) => verse)).toEqual(['1', '2', '10']);
});

test('names that are no numbers come first, in the order of the file', () => {
  expect(openings([['1'], ['refrain'], ['alto']]).map(([verse]) => verse)).toEqual(['refrain', 'alto', '1']);
});

test('rests and notes without words open nothing', () => {
  const [measure] = sung([[], ['1']]);
  const events = [
    ...bars('A4 r').measures[0]!.events.filter(({ kind }) => kind === 'rest'),
    ...measure!.events,
  ];
  expect(events.map(({ kind }) => kind)).toEqual(['rest', 'note', 'note']);
  expect([...verseOpenings([{ ...measure!, events }])]).toEqual([['1', 2]]);
  expect(openings([[], []])).toEqual([]);
});
