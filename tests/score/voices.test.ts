/** What is said when a part or a voice is chosen or refused, and what comes along with the voice. */
import { describe, expect, test } from 'vitest';
import { attributes, melodyOf, note, partWise, refused, scoreOf, words } from '../support/musicxml.ts';

const voice = (id: string, rest = '') => ({ after: `<voice>${id}</voice>`, rest });
const backup = '<backup><duration>48</duration></backup>';
const drum = (id = '1') => `<note><unpitched/><duration>12</duration><voice>${id}</voice></note>`;
const part = (id: string, ...measures: readonly string[]): string =>
  `<part id="${id}">${measures.map((each, n) => `<measure number="${n + 1}">${each}</measure>`).join('')}</part>`;
const listed = (id: string, name = ''): string =>
  `<score-part id="${id}"><part-name>${name}</part-name></score-part>`;
const direction = (type: string, more = ''): string =>
  `<direction><direction-type>${type}</direction-type>${more}</direction>`;
const rehearsal = (letter: string): string => direction(`<rehearsal>${letter}</rehearsal>`);

describe('the choice of a part', () => {
  const twins = scoreOf(
    listed('P1', 'Violin') + listed('P2', 'p1') + listed('violin', 'Alto'),
    part('P1', `${attributes()}${note('C4', 48)}`) +
      part('P2', `${attributes()}${note('D4', 48)}`) +
      part('violin', `${attributes()}${note('E4', 48)}`),
  );
  const chosen = (wanted: string) => melodyOf(twins, { part: wanted }).tune.part;

  test('goes by the exact id, then by name, then by id, then by number', () => {
    expect(chosen('violin')).toBe('violin');
    expect(chosen('Violin')).toBe('P1');
    expect(chosen(' ALTO ')).toBe('violin');
    expect(chosen('p1')).toBe('P2');
    expect(chosen('p2')).toBe('P2');
    expect(chosen('3')).toBe('violin');
    for (const wanted of ['0', '4', 'P', '1.0', '-1', 'x1', '1x'])
      expect(refused(() => chosen(wanted))).toMatchObject([
        {
          severity: 'error',
          code: 'unknown-part',
          message: expect.stringContaining(`"${wanted}"`),
          hint: expect.stringMatching(/P1 \(Violin\), P2 \(p1\), violin \(Alto\)$/),
        },
      ]);
  });

  test('of several parts of one name takes the first with notes, and says which others there are', () => {
    const bars = (...steps: readonly string[]) =>
      scoreOf(
        steps.map((_, n) => listed(`P${n + 1}`, 'Guitar')).join(''),
        steps.map((step, n) => part(`P${n + 1}`, `${attributes()}${note(step, 48)}`)).join(''),
      );
    const called = (...steps: readonly string[]) => melodyOf(bars(...steps), { part: 'guitar' });
    expect(called('r', 'C4', 'D4', 'r', 'E4')).toMatchObject({
      tune: { part: 'P2' },
      diagnostics: [
        {
          severity: 'note',
          code: 'part-chosen',
          message: 'of 3 parts called Guitar, the first is taken: P2',
          hint: expect.stringMatching(/--part P3, P5$/),
        },
      ],
    });
    expect(called('r', 'C4')).toMatchObject({ tune: { part: 'P2' }, diagnostics: [] });
    expect(called('C4')).toMatchObject({ tune: { part: 'P1' }, diagnostics: [] });
    expect(refused(() => called('r', 'r'))).toMatchObject([{ code: 'silent-part', place: { part: 'P1' } }]);
  });

  test('goes by number in scores of more than nine parts, too', () => {
    const ids = Array.from({ length: 12 }, (_, n) => `S${n + 1}`);
    const xml = scoreOf(
      ids.map(id => listed(id)).join(''),
      ids.map(id => part(id, `${attributes()}${note('C4', 48)}`)).join(''),
    );
    expect(melodyOf(xml, { part: '12' }).tune.part).toBe('S12');
  });

  test('that is misspelt is answered with the name that was meant', () => {
    const hintFor = (wanted: string) => refused(() => chosen(wanted))[0]!.hint;
    expect(hintFor('  Violinn  ')).toMatch(/^is Violin meant\? the parts are /);
    expect(hintFor('tuba')).toMatch(/^the parts are /);
    const nameless = scoreOf(listed('X'), part('X', `${attributes()}${note('C4', 48)}`));
    expect(refused(() => melodyOf(nameless, { part: 'y' }))[0]!.hint).toBe('the only part is X');
  });

  test('of a silent part is answered with those that have notes', () => {
    const silent = (...steps: readonly string[]) =>
      refused(() =>
        melodyOf(
          scoreOf(
            steps.map((_, n) => listed(`P${n + 1}`)).join(''),
            steps.map((step, n) => part(`P${n + 1}`, `${attributes()}${note(step, 48)}`)).join(''),
          ),
          { part: 'P1' },
        ),
      )[0]!.hint;
    expect(silent('r', 'C4')).toBe('the only part with notes is P2');
    expect(silent('r', 'C4', 'r', 'D4')).toBe('the parts with notes are P2, P4');
    expect(silent('r', 'r')).toMatch(/right file/);
  });

  test('is said where there was one: how many, which, and what else there is', () => {
    expect(melodyOf(twins).diagnostics).toMatchObject([
      {
        severity: 'note',
        code: 'part-chosen',
        message: expect.stringMatching(/^of 3 parts .*: P1 \(Violin\)$/),
        hint: expect.stringMatching(/--part: P2 \(p1\), violin \(Alto\)$/),
      },
    ]);
    expect(melodyOf(partWise(`${attributes()}${note('C4', 48)}`)).diagnostics).toEqual([]);
  });

  test('passes over parts of cue notes alone', () => {
    const xml = scoreOf(
      listed('P1') + listed('P2'),
      part('P1', `${attributes()}${note('C4', 48, { before: '<cue/>' })}`) +
        part('P2', `${attributes()}${note('D4', 48)}`),
    );
    expect(melodyOf(xml)).toMatchObject({ tune: { part: 'P2' }, diagnostics: [] });
    expect(refused(() => melodyOf(xml, { part: 'P1' }))).toMatchObject([
      { severity: 'error', code: 'silent-part', message: 'part P1 has no notes', place: { part: 'P1' } },
    ]);
  });
});

describe('the choice of a voice', () => {
  const xml = partWise(
    `${attributes()}${note('r', 48, voice('1'))}${backup}${note('E4', 48, voice('2'))}`,
    `${note('F4', 48, voice('2'))}${backup}${note('C3', 48, voice('3'))}`,
  );

  test('is said where there was one', () => {
    expect(melodyOf(xml).diagnostics).toMatchObject([
      {
        severity: 'note',
        code: 'voice-chosen',
        message: expect.stringMatching(/^of 2 voices .*: 2$/),
        hint: expect.stringMatching(/--voice: 3$/),
        place: { part: 'P1' },
      },
    ]);
  });

  test.each([
    ['1', 'silent-voice', /^voice 1 of part P1 \(Tune\) has no notes$/],
    ['4', 'unknown-voice', /^there is no voice "4" in part P1 \(Tune\)$/],
  ])('%s is refused: %s', (wanted, code, message) => {
    expect(refused(() => melodyOf(xml, { voice: wanted }))).toMatchObject([
      {
        severity: 'error',
        code,
        message: expect.stringMatching(message),
        hint: expect.stringMatching(/are 2, 3$/),
        place: { part: 'P1' },
      },
    ]);
  });
});

describe('notes without a pitch', () => {
  test('are a fault of their voice alone', () => {
    const xml = partWise(`${attributes()}${note('C4', 48, voice('1'))}${backup}${drum('2')}${drum('2')}`);
    expect(words(melodyOf(xml).tune)).toBe('C4/48');
    const mixed = partWise(`${attributes()}${note('C4', 24)}${drum()}${drum()}`);
    expect(refused(() => melodyOf(mixed))).toMatchObject([
      { code: 'unpitched-notes', message: expect.stringMatching(/ \(2 notes, the first here\)$/) },
    ]);
    const one = partWise(`${attributes()}${note('C4', 36)}${drum()}`);
    expect(refused(() => melodyOf(one))).toMatchObject([
      { code: 'unpitched-notes', message: expect.not.stringMatching(/\(/) },
    ]);
  });

  test('are the reason where there is nothing else, one for each kind', () => {
    const quarterTone = `<note><pitch><step>C</step><alter>0.5</alter><octave>4</octave></pitch><duration>12</duration></note>`;
    const xml = partWise(`${attributes()}${drum()}${quarterTone}${drum()}`);
    const codes = refused(() => melodyOf(xml)).map(({ code }) => code);
    expect(codes).toHaveLength(2);
    expect(codes[0]).toBe('unpitched-notes');
    expect(new Set(codes).size).toBe(2);
  });
});

describe('what is left out', () => {
  const cue = (duration = 12) => note('C5', duration, { before: '<cue/>' });

  test('is counted: cue notes, chords, notation of other kinds', () => {
    const wedge = direction('<wedge type="crescendo"/>');
    const above = note('E4', 12, { before: '<chord/>' });
    const said = (content: string) => melodyOf(partWise(`${attributes()}${content}`)).diagnostics;
    expect(said(`${note('C4')}${cue()}`)).toMatchObject([
      { severity: 'warning', code: 'cue-notes', message: expect.stringMatching(/^1 cue note left/) },
    ]);
    expect(said(`${note('C4')}${cue()}${cue()}`)[0]!.message).toMatch(/^2 cue notes left/);
    expect(said(`${note('C4')}${above}`)).toMatchObject([
      {
        severity: 'note',
        code: 'top-notes',
        message: expect.stringMatching(/^of 1 chord,/),
        place: { measure: '1' },
      },
    ]);
    expect(said(`${note('C4')}${above}${note('C4')}${above}`)[0]!.message).toMatch(/^of 2 chords,/);
    expect(said(`${wedge}${note('C4')}`)).toMatchObject([
      { severity: 'warning', code: 'left-out', message: 'left out: hairpins (1)', place: { measure: '1' } },
    ]);
    expect(said(`${wedge}${note('C4')}${wedge}`)[0]!.message).toBe('left out: hairpins (2, the first here)');
  });
});

describe('marks', () => {
  test('that stand in another part come along by their measure, after those of the voice itself', () => {
    const xml = scoreOf(
      listed('P1') + listed('P2') + listed('P3'),
      part(
        'P1',
        `${attributes()}${note('C4', 24)}${rehearsal('A')}${note('C4', 24)}`,
        `${rehearsal('B')}${direction('<segno/>')}${note('C4', 48)}`,
      ) +
        part(
          'P2',
          `${attributes()}${direction('<dynamics><p/></dynamics>')}${note('E4', 48)}`,
          note('E4', 48),
        ) +
        part('P3', `${attributes()}${rehearsal('Z')}${note('G4', 48)}`, note('G4', 48)),
    );
    const marks = (wanted: string) =>
      melodyOf(xml, { part: wanted }).tune.measures.map(({ directions }) =>
        directions.map(each => ('text' in each ? each.text : each.kind)),
      );
    expect(marks('P2')).toEqual([
      ['p', 'A'],
      ['sign', 'B'],
    ]);
    // A part with marks of a kind keeps to its own.
    expect(marks('P3')).toEqual([['Z'], ['sign']]);
  });

  test('of dynamics are those of the staff on which the voice begins', () => {
    const loud = (sign: string, staff: number): string =>
      direction(`<dynamics><${sign}/></dynamics>`, `<staff>${staff}</staff>`);
    const on = (staff: number) => `<staff>${staff}</staff>`;
    const xml = partWise(
      `${attributes('<time><beats>4</beats><beat-type>4</beat-type></time><staves>2</staves>')}${loud('p', 1)}${note('C5', 48, voice('1', on(1)))}${backup}${note('r', 48, voice('2', on(2)))}`,
      `${loud('f', 2)}${loud('mf', 1)}${note('C5', 48, voice('1', on(1)))}${backup}${note('C3', 48, voice('2', on(2)))}`,
    );
    const dynamics = (wanted: string) =>
      melodyOf(xml, { voice: wanted }).tune.measures.map(({ directions }) =>
        directions.flatMap(each => (each.kind === 'dynamic' ? [each.text] : [])),
      );
    expect(dynamics('1')).toEqual([['p'], ['mf']]);
    expect(dynamics('2')).toEqual([[], ['f']]);
  });

  test('of chords are taken from the first part that has any where the own has none', () => {
    const symbol = (root: string) =>
      `<harmony><root><root-step>${root}</root-step></root><kind>major</kind></harmony>`;
    const xml = scoreOf(
      listed('P1') + listed('P2') + listed('P3'),
      part('P1', `${attributes()}${note('C4', 48)}`, `${symbol('G')}${note('C4', 48)}`) +
        part('P2', `${attributes()}${note('E4', 48)}`, note('E4', 48), note('E4', 48)) +
        part('P3', `${attributes()}${symbol('D')}${note('G4', 48)}`, note('G4', 48)),
    );
    const roots = (wanted: string) =>
      melodyOf(xml, { part: wanted }).tune.measures.map(({ chordSymbols }) =>
        chordSymbols.map(({ root }) => root?.step),
      );
    expect(roots('P2')).toEqual([[], ['G'], []]);
    expect(roots('P3')).toEqual([['D'], []]);
  });
});

test('marks that are lent stand in order of time among those of the part itself', () => {
  const soft = direction('<dynamics><p/></dynamics>');
  const xml = scoreOf(
    listed('P1') + listed('P2'),
    part('P1', `${attributes()}${rehearsal('A')}${note('C4', 48)}`) +
      part('P2', `${attributes()}${note('E4', 24)}${soft}${note('E4', 24)}`),
  );
  const [measure] = melodyOf(xml, { part: 'P2' }).tune.measures;
  expect(measure!.directions.map(({ kind, at }) => [kind, at])).toEqual([
    ['rehearsal', 0],
    ['dynamic', 24],
  ]);
});

test('the top note of a chord is its highest, of however many', () => {
  const above = (name: string) => note(name, 48, { before: '<chord/>' });
  const xml = partWise(`${attributes()}${note('E4', 48)}${above('C4')}${above('G4')}`);
  expect(words(melodyOf(xml).tune)).toBe('G4/48');
});

test('a measure without time has no rest', () => {
  const { tune } = melodyOf(partWise(`${attributes()}${note('C4', 48)}`, ''));
  const [, empty] = tune.measures;
  expect(empty!.events.reduce((sum, { duration }) => sum + duration, 0)).toBe(empty!.length);
});

describe('slurs and tuplets', () => {
  const slur = (type: string) => `<notations><slur type="${type}"/></notations>`;

  test('count by the ids of the tune, and go where an end of theirs goes', () => {
    const whole = `${attributes()}${note('r', 48, voice('1'))}${backup}${note('C4', 24, voice('2', slur('start')))}${note('D4', 24, voice('2', slur('stop')))}`;
    const { tune } = melodyOf(partWise(whole));
    const [first, second] = tune.measures[0]!.events;
    expect(tune.slurs).toMatchObject([{ from: first!.id, to: second!.id }]);
    const cue = note('D4', 0, { before: '<grace/><cue/>', rest: slur('stop') });
    const lost = partWise(`${attributes()}${note('C4', 24, { rest: slur('start') })}${cue}${note('E4', 24)}`);
    expect(melodyOf(lost).tune.slurs).toEqual([]);
  });
});

describe('gaps', () => {
  test('are none where a measure is full, grace notes or not', () => {
    const grace = note('C5', 0, { before: '<grace/>' });
    expect(words(melodyOf(partWise(`${attributes()}${grace}${note('C4', 48)}`)).tune)).toBe('C5/0 C4/48');
  });

  test('are filled with plain rests that stand where the gap does', () => {
    const { tune } = melodyOf(
      partWise(`${attributes()}${note('C4', 24)}<forward><duration>12</duration></forward>${note('D4', 12)}`),
    );
    expect(words(tune)).toBe('C4/24 r/12 D4/12');
    const cueOnly = melodyOf(
      partWise(`${attributes()}${note('C4', 24)}${note('C5', 24, { before: '<cue/>' })}`),
    ).tune;
    expect(cueOnly.measures[0]!.events[1]).toMatchObject({ kind: 'rest', wholeMeasure: false });
    const [, rest] = tune.measures[0]!.events;
    expect(rest).toMatchObject({
      kind: 'rest',
      fermata: false,
      wholeMeasure: false,
      at: 24,
      source: { measure: '1' },
    });
  });
});
