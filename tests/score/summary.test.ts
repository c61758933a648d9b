import { expect, test } from 'vitest';
import { summarise } from '../../src/score/summary.ts';
import { attributes, note, partWise, read } from '../support/musicxml.ts';

test('a summary says what is in a score', () => {
  const summary = summarise(
    read(
      partWise(
        `${attributes('<key><fifths>1</fifths></key><time><beats>3</beats><beat-type>4</beat-type></time>')}
         <direction><direction-type><wedge type="crescendo"/></direction-type></direction>
         ${note('G4', 12, { rest: '<lyric number="1"><text>a</text></lyric><lyric number="2"><text>b</text></lyric>' })}
         ${note('B4', 24, { after: '<tie type="start"/>' })}${note('D5', 24, { before: '<chord/>' })}`,
        `${note('B4', 36, { after: '<tie type="stop"/>' })}`,
        `<attributes><key><fifths>-2</fifths></key></attributes>${note('Bb3', 36)}`,
        `<attributes><key><fifths>1</fifths></key></attributes><note><cue/><pitch><step>C</step><octave>7</octave></pitch><duration>36</duration></note>
         <backup><duration>36</duration></backup><note><unpitched/><duration>36</duration><voice>2</voice></note>`,
      ),
    ),
  );
  expect(summary).toMatchObject({
    measures: 4,
    parts: [
      {
        id: 'P1',
        name: 'Tune',
        transposed: 0,
        keys: [{ fifths: 1 }, { fifths: -2 }],
        times: [{ kind: 'metred', fractions: [{ beats: [3], beatType: 4 }] }],
        chordSymbols: 0,
        leftOut: [{ what: 'hairpins', count: 1 }],
        voices: [
          {
            id: '1',
            notes: 4,
            chords: 1,
            cueNotes: 1,
            range: { lowest: { step: 'B', alter: -1, octave: 3 }, highest: { step: 'D', octave: 5 } },
            verses: ['1', '2'],
            faults: [],
          },
          { id: '2', notes: 0, range: undefined, faults: ['unpitched-notes'] },
        ],
      },
    ],
  });
});

test('a summary lists keys and times once each, in order, and counts chord symbols over all measures', () => {
  const symbol = '<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>';
  const time = (beats: number) => `<time><beats>${beats}</beats><beat-type>4</beat-type></time>`;
  const score = read(
    partWise(
      `${attributes(time(4))}${symbol}${note('C4', 24)}${symbol}${note('C4', 24)}`,
      `<attributes>${time(3)}</attributes>${symbol}${note('C4', 36)}`,
      `<attributes>${time(4)}</attributes>${note('C4', 48)}`,
    ),
  );
  const [part] = summarise(score).parts;
  expect(part!.chordSymbols).toBe(3);
  expect(part!.times.map(each => each.kind === 'metred' && each.fractions[0]!.beats)).toEqual([[4], [3]]);
  const bare = summarise({ ...score, parts: [{ ...score.parts[0]!, measures: [] }] });
  expect(bare.parts[0]).toMatchObject({ keys: [], times: [], voices: [], leftOut: [] });
});
