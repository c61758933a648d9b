/** Choosing a part, a voice and the notes of chords; rests in the gaps. */
import { describe, expect, test } from 'vitest';
import { attributes, melodyOf, note, partWise, read, refused, scoreOf, words } from '../support/musicxml.ts';

const part = (id: string, content: string): string =>
  `<part id="${id}"><measure number="1">${content}</measure></part>`;
const listed = (id: string, name: string): string =>
  `<score-part id="${id}"><part-name>${name}</part-name></score-part>`;
const voice = (id: string) => ({ after: `<voice>${id}</voice>` });
const backup = '<backup><duration>48</duration></backup>';

const DUO = scoreOf(
  listed('P1', 'Drum') + listed('P2', 'Voice') + listed('P3', 'Flute'),
  part('P1', `${attributes()}<note><unpitched/><duration>48</duration></note>`) +
    part('P2', `${attributes()}${note('C4', 48)}`) +
    part('P3', `${attributes()}${note('r', 48)}`) +
    part('P4', `${attributes()}${note('G4', 48)}`),
);

describe('parts', () => {
  test('the first with pitched notes is taken, and the choice is said', () => {
    const { tune, diagnostics } = melodyOf(DUO);
    expect(tune).toMatchObject({ part: 'P2', partName: 'Voice', voice: '1' });
    expect(diagnostics).toMatchObject([
      { severity: 'note', code: 'part-chosen', hint: expect.stringContaining('P4') },
    ]);
  });

  test.each(['P4', 'p4', '4'])('"%s" asks for one by id or number', wanted => {
    const { tune, diagnostics } = melodyOf(DUO, { part: wanted });
    expect(words(tune)).toBe('G4/48');
    expect(diagnostics).toEqual([]);
  });

  test('or by name', () => expect(melodyOf(DUO, { part: 'voice' }).tune.part).toBe('P2'));

  test.each([
    ['unknown-part', { part: 'Oboe' }, /P1 \(Drum\), P2 \(Voice\), P3 \(Flute\), P4/],
    ['unknown-part', { part: '5' }, /P1/],
    ['silent-part', { part: 'Flute' }, /^the parts with notes are P2 \(Voice\), P4$/],
    ['unpitched-notes', { part: 'Drum' }, /^choose another with --part/],
    ['unknown-voice', { part: 'Voice', voice: '7' }, /^the only voice with notes is 1$/],
    ['silent-part', { part: 'Flute', voice: '1' }, /^the parts with notes are P2/],
  ])('%s', (code, choice, hint) =>
    expect(refused(() => melodyOf(DUO, choice))[0]).toMatchObject({
      code,
      hint: expect.stringMatching(hint),
    }),
  );

  test('a score without notes is refused', () =>
    expect(refused(() => melodyOf(partWise(`${attributes()}${note('r', 48)}`)))[0]).toMatchObject({
      code: 'no-notes',
    }));

  test('what is written once for all parts comes along', () => {
    const xml = scoreOf(
      listed('P1', '') + listed('P2', ''),
      part(
        'P1',
        `${attributes()}<direction><direction-type><words>soft</words></direction-type></direction><direction><direction-type><rehearsal>A</rehearsal></direction-type></direction><harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>${note('C4', 48)}`,
      ) + part('P2', `${attributes()}<sound tempo="90"/>${note('E4', 48)}`),
    );
    const [measure] = melodyOf(xml, { part: 'P2' }).tune.measures;
    expect(measure!.directions.map(each => each.kind)).toEqual(['tempo', 'rehearsal']);
    expect(measure!.chordSymbols).toHaveLength(1);
  });
});

describe('voices', () => {
  const xml = partWise(
    `${attributes()}${note('r', 48, voice('1'))}${backup}${note('E4', 48, voice('2'))}${backup}${note('C3', 48, voice('3'))}`,
  );

  test('the first with notes is taken, and the choice is said', () => {
    const { tune, diagnostics } = melodyOf(xml);
    expect(words(tune)).toBe('E4/48');
    expect(diagnostics).toMatchObject([{ code: 'voice-chosen', hint: 'choose another with --voice: 3' }]);
  });

  test('or the one that is asked for', () => {
    const { tune, diagnostics } = melodyOf(xml, { voice: '3' });
    expect(words(tune)).toBe('C3/48');
    expect(diagnostics).toEqual([]);
  });
});

describe('a voice that says another once more, as a tablature staff does', () => {
  const twice = (first: string, second: string): string =>
    partWise(
      `${attributes()}${note('C4', 24, voice('1'))}${note(first, 24, voice('1'))}${backup}${note('C4', 24, voice('2'))}${note(second, 24, voice('2'))}`,
      note('G4', 48, voice('1')) + backup + note('G4', 48, voice('2')),
    );

  test('is no choice', () => expect(melodyOf(twice('E4', 'E4')).diagnostics).toEqual([]));

  test.each(['F4', 'r'])('is one where a note differs: %s', second =>
    expect(melodyOf(twice('E4', second)).diagnostics).toMatchObject([{ code: 'voice-chosen' }]),
  );

  test('is one where a note is shorter or later', () => {
    const shorter = twice('E4', 'E4').replace(
      '<duration>24</duration><voice>2',
      '<duration>12</duration><voice>2',
    );
    expect(melodyOf(shorter).diagnostics).toMatchObject([{ code: 'voice-chosen' }]);
  });

  test('is not offered beside a third', () => {
    const third = twice('E4', 'E4').replace(backup, backup + note('C3', 48, voice('3')) + backup);
    expect(melodyOf(third).diagnostics).toMatchObject([
      { message: expect.stringContaining('of 2 voices'), hint: expect.stringMatching(/--voice: 3$/) },
    ]);
  });
});

describe('gaps', () => {
  test('are filled with rests that respect the beat', () => {
    const { tune } = melodyOf(
      partWise(
        `${attributes()}<forward><duration>18</duration></forward>${note('C4', 6)}<forward><duration>24</duration></forward>`,
      ),
    );
    expect(words(tune)).toBe('r/12 r/6 C4/6 r/24');
    expect(tune.measures[0]!.events.map(event => event.value?.base)).toEqual([4, 8, 8, 2]);
  });

  test('are whole-measure rests where the voice has nothing', () => {
    const { tune } = melodyOf(
      partWise(
        `${attributes()}${note('C4', 48)}${backup}${note('C3', 48, voice('2'))}`,
        note('C3', 36, voice('2')),
      ),
    );
    expect(words(tune)).toBe('C4/48 | r/36');
    expect(tune.measures[1]!.events[0]).toMatchObject({ wholeMeasure: true, value: undefined });
  });

  test('in the middle of a tuplet end with the beat', () => {
    const { tune } = melodyOf(
      partWise(`${attributes()}${note('C4', 4)}<forward><duration>8</duration></forward>${note('C4', 36)}`),
    );
    expect(words(tune)).toBe('C4/4 r/8 C4/36');
    expect(tune.measures[0]!.events[1]!.value).toEqual({ base: 4, dots: 0, ratio: { actual: 3, normal: 2 } });
  });
});

describe('chords', () => {
  const tie = (type: string) => ({ after: `<tie type="${type}"/>` });
  const above = (type: string) => ({ before: '<chord/>', ...tie(type) });
  const xml = partWise(
    `${attributes()}${note('C4', 24, tie('start'))}${note('E4', 24, above('start'))}${note('C4', 24, tie('stop'))}`,
    `${note('C4', 24, tie('start'))}${note('E4', 24, above('start'))}${note('C4', 24, tie('stop'))}${note('E4', 24, above('stop'))}`,
  );

  test('keep their top note, which is said once; ties to notes that go are no ties', () => {
    const { tune, diagnostics } = melodyOf(xml);
    expect(words(tune)).toBe('E4/24 C4/24 | E4/24 E4/24');
    const heads = tune.measures.flatMap(each =>
      each.events.flatMap(event => (event.kind === 'note' ? event.heads : [])),
    );
    expect(heads.map(head => head.tieFrom)).toEqual([undefined, undefined, undefined, heads[2]!.id]);
    expect(diagnostics.filter(each => each.code === 'top-notes')).toHaveLength(1);
  });

  test('or all their notes', () => {
    const { tune, diagnostics } = melodyOf(xml, { chords: 'all' });
    expect(words(tune)).toBe('C4+E4/24 C4/24 | C4+E4/24 C4+E4/24');
    expect(diagnostics.filter(each => each.code === 'top-notes')).toEqual([]);
  });
});

describe('cue notes', () => {
  test('are rests, which is said once', () => {
    const { tune, diagnostics } = melodyOf(
      partWise(
        `${attributes()}${note('C4', 24)}${note('E4', 12, { before: '<cue/>' })}${note('E4', 0, { before: '<grace/><cue/>' })}${note('F4', 12, { before: '<cue/>' })}`,
      ),
    );
    expect(words(tune)).toBe('C4/24 r/12 r/12');
    expect(diagnostics).toMatchObject([{ severity: 'warning', code: 'cue-notes', place: { measure: '1' } }]);
  });
});

test('ids of a tune count its events and heads in order', () => {
  const { tune } = melodyOf(partWise(`${attributes()}${note('C4')}${note('r')}${note('D4')}`));
  const ids = tune.measures.flatMap(each =>
    each.events.flatMap(event => [
      event.id,
      ...(event.kind === 'note' ? event.heads.map(head => head.id) : []),
    ]),
  );
  expect(ids).toEqual(ids.map((_, index) => index + 1));
});

test('choosing changes nothing in the score', () => {
  const score = read(DUO);
  const before = structuredClone(score);
  melodyOf(DUO);
  expect(score).toEqual(before);
});
