/** Cues: every note said once, in order, with its place; phrases where one breathes; words worth reading aloud. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { type CueStyle, cuesToText } from '../../src/emit/text/cues.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument, withCapo } from '../../src/instrument/define.ts';
import { phrasesOf } from '../../src/lesson/cues/phrases.ts';
import { makeCues } from '../../src/lesson/cues.ts';
import { fromMarkdown } from '../../src/lesson/pack/markdown.ts';
import { readScore } from '../../src/read/read.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import { transposeTune } from '../../src/score/transpose-tune.ts';
import type { Tune } from '../../src/score/tune.ts';
import { struckHeads } from '../support/lesson.ts';
import { attributes, melodyOf, note, scoreOf, tuneFrom } from '../support/musicxml.ts';

const PLAIN: CueStyle = { strings: 'names', markup: 'text', width: 200, ascii: false };

const cuesFor = (tune: Tune, id = 'ukulele-low-g', frets: readonly [number, number] | 'none' = [4, 8]) => {
  const rules = rulesFrom(frets === 'none' ? {} : { windows: wholeTune(...frets) });
  const { arrangement } = arrange(tune, findInstrument(id), rules);
  return { arrangement, cues: makeCues(tune, arrangement) };
};

const load = (path: string): Tune =>
  chooseMelody(readScore(readFileSync(path)).score, { chords: 'top' }).tune;

const EXAMPLES = fileURLToPath(new URL('../../examples/tunes/', import.meta.url));
const CORPUS = fileURLToPath(new URL('../../../shared/corpus/tunes/', import.meta.url));
const examples = readdirSync(EXAMPLES).filter(name => name.endsWith('.musicxml'));

const heads = (tune: Tune): readonly string[] =>
  phrasesOf(tune).map(phrase => `${phrase[0]!.measure.number}.${phrase[0]!.at - phrase[0]!.measure.at}`);

/** What holds for every tune. */
const check = (tune: Tune, every?: number): void => {
  const { arrangement } = cuesFor(tune, 'guitar', 'none');
  const { phrases } = makeCues(tune, arrangement, every);
  const said = phrases.flatMap(phrase => phrase.measures.flatMap(measure => measure.notes));
  const struck = struckHeads(tune);
  expect(said.map(each => each.pitch)).toEqual(struck.map(head => head.pitch));
  expect(said.map(each => each.placement)).toEqual(struck.map(head => arrangement.placements.get(head.id)));
  const numbers = phrases.map(({ measures }) => [measures[0]!.number, measures.at(-1)!.number]);
  phrases.forEach(({ as }, index) => {
    if (!as) return;
    const earlier = numbers.findIndex(([from, to]) => from === as.from && to === as.to);
    expect(earlier).toBeLessThan(index);
    const places = (phrase: number) =>
      phrases[phrase]!.measures.flatMap(({ notes }) =>
        notes.map(({ beat, pitch, placement: { string, fret, finger } }) => ({
          beat,
          pitch,
          string,
          fret,
          finger,
        })),
      );
    expect(places(index)).toEqual(places(earlier));
  });
};

describe.each(examples)('%s', name => {
  const tune = load(EXAMPLES + name);
  test('every struck note is said once, in order, with its place', () => check(tune));
  test.each([1, 2, 3, 4])('also by %i measures', every => check(tune, every));

  test('takes at most ten words a note to say', () => {
    for (const id of ['ukulele', 'ukulele-low-g']) {
      const { cues } = cuesFor(tune, id);
      const words = cuesToText(cues, PLAIN).split(/\s+/).length;
      expect(words / struckHeads(tune).length).toBeLessThan(10);
    }
  });

  test('seven-bit, and no wider than asked for', () => {
    const text = cuesToText(cuesFor(tune).cues, { ...PLAIN, ascii: true, width: 50 });
    expect(text).toMatch(/^[\n -~]*$/);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(50);
  });
});

describe.skipIf(!existsSync(CORPUS))('the corpus (skipped where it is absent)', () => {
  test('every struck note of every tune is said once', () => {
    let tunes = 0;
    for (const name of readdirSync(CORPUS).filter(each => each.endsWith('.mxl'))) {
      try {
        check(load(CORPUS + name));
        tunes++;
      } catch (error) {
        // Tunes beyond a guitar are refused by the solver, not said wrongly.
        if (!(error instanceof Refusal)) throw error;
      }
    }
    expect(tunes).toBeGreaterThan(10);
  }, 60_000);
});

// Where these tunes breathe: common practice (their lines of verse).
describe('phrases', () => {
  test('four lines of four measures, each with its upbeat', () => {
    const tune = load(`${EXAMPLES}amazing-grace.musicxml`);
    const beat3 = 2 * tune.division;
    expect(heads(tune)).toEqual(['0.0', `4.${beat3}`, `8.${beat3}`, `12.${beat3}`]);
  });

  const half = (name: string, rest?: string) => note(name, 24, rest ? { rest } : {});
  const measure = (names: string) =>
    names
      .split(' ')
      .map(each => half(each))
      .join('');

  test('a breath and a fermata part phrases; a slur is not parted', () => {
    const breath = '<notations><articulations><breath-mark/></articulations></notations>';
    const tune = tuneFrom(
      attributes() + measure('C4 D4'),
      half('E4') + half('F4', breath),
      measure('G4 A4'),
      measure('G4 F4'),
    );
    expect(heads(tune)).toEqual(['1.0', '3.0']);
    const start = '<notations><slur type="start" number="1"/></notations>';
    const stop = '<notations><slur type="stop" number="1"/></notations>';
    const slurred = tuneFrom(
      attributes() + half('C4', start) + half('D4'),
      ...['E4 F4', 'G4 A4', 'B4 C5', 'B4 A4', 'G4 F4'].map(measure),
      half('E4') + half('C4', stop),
    );
    expect(heads(slurred)).toEqual(['1.0']);
  });

  test('repeats and endings part phrases, and are said', () => {
    const end = '<barline location="right"><repeat direction="backward"/></barline>';
    const tune = tuneFrom(
      attributes() + measure('C4 D4'),
      measure('E4 F4') + end,
      measure('C4 D4'),
      measure('E4 F4'),
    );
    expect(heads(tune)).toEqual(['1.0', '3.0']);
    const text = cuesToText(cuesFor(tune, 'ukulele', 'none').cues, PLAIN);
    expect(text).toContain('Back to measure 1.');
    expect(text).toContain('As measures 1–2.');
  });
});

describe('the way through a tune', () => {
  const half = (name: string) => note(name, 24);
  const measure = (names: string) => names.split(' ').map(half).join('');
  const start = '<barline location="left"><repeat direction="forward"/></barline>';
  const end = '<barline location="right"><repeat direction="backward"/></barline>';
  const ending = (number: number, content: string, close = '') =>
    `<barline location="left"><ending number="${number}" type="start"/></barline>${content}<barline location="right"><ending number="${number}" type="stop"/>${close}</barline>`;
  const back = '<repeat direction="backward"/>';
  const words = (text: string, sound: string) =>
    `<direction><direction-type><words>${text}</words></direction-type><sound ${sound}/></direction>`;
  const rest = '<note><rest measure="yes"/><duration>48</duration></note>';

  /** The lines that say neither notes nor where the hand begins, as heads and as lines. */
  const signs = (tune: Tune, every?: number): readonly string[] => {
    const { arrangement } = cuesFor(tune, 'ukulele', 'none');
    return cuesToText(makeCues(tune, arrangement, every), PLAIN)
      .split('\n')
      .slice(3)
      .map(line => line.trim().replace(/: on 1.*/, ''))
      .filter(line => line !== '' && !/^Index|^Measures? [\d–]+$/.test(line));
  };

  test('a second passage goes back to where it begins, with a sign there or without', () => {
    const passage = [measure('C4 D4'), measure('E4 F4') + end];
    const [first, second] = passage;
    expect(
      signs(tuneFrom(attributes() + start + first, second!, measure('G4 A4'), measure('B4 C5') + end)),
    ).toEqual(['Back to measure 1.', 'Back to measure 3.']);
  });

  test('back to the pickup, which has no number', () => {
    const [pickup, ...rest] = [half('C4'), measure('C4 D4'), half('E4') + end];
    const numbered = [attributes() + start + pickup, ...rest].map(
      (content, number) =>
        `<measure number="${number}"${number === 0 ? ' implicit="yes"' : ''}>${content}</measure>`,
    );
    const list = '<score-part id="P1"><part-name>Tune</part-name></score-part>';
    const { tune } = melodyOf(scoreOf(list, `<part id="P1">${numbered.join('')}</part>`));
    expect(signs(tune)).toContain('Back to the pickup.');
  });

  test('a repeat, a jump and an ending at silent measures are said with the notes beside them', () => {
    const tune = tuneFrom(
      attributes() + measure('C4 D4'),
      rest + end,
      measure('E4 F4'),
      rest + words('D.C. al Fine', 'dacapo="yes"'),
    );
    expect(signs(tune)).toEqual(['Back to measure 1.', 'D.C. al Fine.']);
    const endings = tuneFrom(
      attributes() + start + measure('C4 D4'),
      ending(1, measure('E4 F4'), back),
      ending(2, rest),
      measure('G4 A4'),
    );
    expect(signs(endings)).toEqual([
      'First ending, measure 2',
      'Back to measure 1.',
      'Second ending, measure 4',
    ]);
  });

  test('so many measures at a time, what lies between them is said, too', () => {
    const tune = tuneFrom(
      attributes() + start + measure('C4 D4'),
      ending(1, measure('E4 F4'), '<repeat direction="backward" times="3"/>'),
      ending(2, measure('G4 A4')),
      measure('A4 B4'),
    );
    expect(signs(tune, 4)).toEqual([
      'First ending, measure 2',
      'Back to measure 1; play 3 times.',
      'Second ending, measure 3',
    ]);
    // Alike in its notes, and not in its signs.
    const twice = ['C4 D4', 'E4 F4', 'C4 D4', 'E4 F4'].map(measure);
    const half = tuneFrom(attributes() + twice[0] + end, ...twice.slice(1));
    expect(signs(half, 2)).toEqual(['Back to measure 1.', 'Measures 3–4: as measures 1–2.']);
  });

  test('segno and coda, to which jumps lead', () => {
    const sign = (name: string) =>
      `<direction><direction-type><${name}/></direction-type><sound ${name}="1"/></direction>`;
    const tune = tuneFrom(
      attributes() + measure('C4 D4'),
      sign('segno') + measure('E4 F4') + words('To Coda', 'tocoda="1"'),
      measure('G4 A4') + words('D.S. al Coda', 'dalsegno="1"'),
      sign('coda') + measure('B4 C5'),
    );
    expect(signs(tune)).toEqual(['Segno.', 'To Coda.', 'D.S. al Coda.', 'Coda.']);
  });
});

describe('words', () => {
  const e = (name: string) => note(name, 6);
  const tune = tuneFrom(
    `${attributes()}${note('C4', 12)}${note('C4', 12)}${e('D4')}${e('E4')}${note('F4', 12)}`,
    `${note('A4', 12)}${note('A4', 12)}${note('A4', 12)}${note('C5', 12)}`,
  );
  const say = (id: string, style: Partial<CueStyle> = {}) =>
    cuesToText(cuesFor(tune, id, 'none').cues, { ...PLAIN, ...style })
      .split('\n')
      .slice(3);

  test('a string is named when it changes, open strings have no finger, repeated notes are said together', () => {
    expect(say('ukulele')).toEqual([
      'Measures 1–2',
      '  Index finger at fret 1.',
      '  Measure 1: on 1 C, C string open; on 2 C again; on 3 D, fret 2, finger 2; and E, E string open; on 4 F, fret 1, finger 1.',
      '  Measure 2: on 1 A, A string open; on 2 and 3 A again; on 4 C, fret 3, finger 3.',
      '',
    ]);
  });

  test.each([40, 43, 46, 50, 57])('in %i columns no line ends between a word and its number', width => {
    const lines = say('ukulele', { width, strings: 'numbers' });
    expect(lines.filter(line => /\b(fret|finger|string|on)$/.test(line))).toEqual([]);
    expect(lines.join('')).not.toContain('\u00a0');
  });

  test.each([40, 43, 46, 50, 57, 61])('in %i columns no line ends between a string and its name', width => {
    const lines = say('ukulele', { width }).map(line => line.trim());
    expect(lines.filter(line => /^string\b/.test(line) || /\bon \d+ and$/.test(line))).toEqual([]);
    expect(lines.join('')).not.toContain('\u00a0');
  });

  test('strings by number; two strings of one name are told apart', () => {
    expect(say('ukulele', { strings: 'numbers' })[2]).toContain('string 3 open');
    const low = tuneFrom(`${attributes()}${note('E2', 24)}${note('E4', 24)}`);
    expect(cuesToText(cuesFor(low, 'guitar', 'none').cues, PLAIN)).toContain(
      'on 1 E, low E string open; on 3 E, high E string open',
    );
  });

  test('capo, window and key stand over them, and a long title over several lines', () => {
    const title = 'Blow the man down, '.repeat(6).trim();
    const rules = rulesFrom({ windows: wholeTune(5, 5), outside: 'nearest' });
    const moved = { ...transposeTune(tune, 2), title };
    const { arrangement } = arrange(moved, withCapo(findInstrument('ukulele'), 2), rules);
    const [head] = cuesToText(makeCues(moved, arrangement), { ...PLAIN, width: 60 }).split('\n\n');
    const lines = head!.split('\n');
    expect(lines.pop()).toBe('Ukulele, high G, capo 2, fret 5, moved up 2 semitones');
    expect(lines.join(' ')).toBe(title);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(60);
  });

  test('in Markdown a title stands as it is written', () => {
    const title = '*Row* [1] & <2> _row_ #3';
    const { arrangement } = cuesFor(tune, 'ukulele', 'none');
    const text = cuesToText(makeCues({ ...tune, title }, arrangement), { ...PLAIN, markup: 'markdown' });
    const [head] = fromMarkdown(text);
    expect(head).toMatchObject({ kind: 'heading' });
    const words = head?.kind === 'heading' ? head.words : [];
    expect(words.map(run => run.text).join('')).toBe(title);
    expect(words.some(run => run.bold || run.italic)).toBe(false);
  });

  test('as Markdown', () => {
    const text = cuesToText(cuesFor(tune, 'ukulele', 'none').cues, { ...PLAIN, markup: 'markdown' });
    expect(text).toContain('## Measures 1–2\n\n- Index finger at fret 1.\n- Measure 1: on 1 C');
  });
});
