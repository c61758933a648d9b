/** Lesson files with faults: where they are, and what may be meant. */
import { describe, expect, it } from 'vitest';
import { ROW, terminal } from '../terminal.ts';

describe('a lesson file with faults', () => {
  it('says line, column and the nearest right key', async () => {
    const here = terminal(ROW);
    here.write(
      'bad.yaml',
      [
        `tune: ${ROW}.musicxml`,
        'fret: 4-8',
        'paper: a5',
        'parts: [scale, quizz]',
        'one-place: yes',
        'octaves: 9',
        'notes:',
      ].join('\n'),
    );
    const { stderr, status } = await here.run('fretward lesson bad.yaml');
    expect(status).toBe(1);
    expect(stderr).toBe(`bad.yaml, line 2, column 1: error: there is no key "fret" here (lesson-unknown-key)
    | fret: 4-8
    is "frets" meant?
bad.yaml, line 3, column 8: error: "paper" does not take "a5" (lesson-bad-value)
    | paper: a5
    is a4 meant? use one of a4, letter
bad.yaml, line 4, column 16: error: "parts" does not take "quizz" (lesson-bad-value)
    | parts: [scale, quizz]
    is quiz meant? use one of scale, quiz, names, blank, tab, chords, neck, cues, drill
bad.yaml, line 5, column 12: error: "one-place" does not take "yes" (lesson-bad-value)
    | one-place: yes
    write true or false
bad.yaml, line 6, column 10: error: "octaves" does not take "9" (lesson-bad-value)
    | octaves: 9
    write a whole number from 1 to 5 octaves
bad.yaml, line 7, column 7: error: "notes" does not take this (lesson-bad-value)
    | notes:
    write a value after the colon
`);
    expect(here.files()).toEqual(['bad.yaml', `${ROW}.musicxml`]);
  });

  it.each([
    ['tune: ../x.musicxml', 'column 7: error: ../x.musicxml lies outside the folder of the lesson'],
    ['tune: /etc/passwd', 'column 7: error: /etc/passwd lies outside'],
    ['tune: link/x.musicxml', 'column 7: error: link/x.musicxml lies outside'],
    ['tune: none.musicxml', 'column 7: error: there is no file none.musicxml'],
    [`{tune: ${ROW}.musicxml, out: ../out}`, 'column 45: error: ../out lies outside'],
    [`{tune: ${ROW}.musicxml, font: ../f.ttf}`, 'column 46: error: ../f.ttf lies outside'],
    [`{tune: ${ROW}.musicxml, instrument: [../i.json]}`, 'error: ../i.json lies outside'],
    [`{tune: ${ROW}.musicxml, instrument: banjo}`, 'column 52: error: there is no instrument "banjo"'],
    [`{tune: ${ROW}.musicxml, to: text}`, 'error: a lesson is not written as text'],
    [
      `tune: ${ROW}.musicxml\nfrets: 4-30`,
      'line 2, column 8: error: frets 4-30 are no window on Ukulele, high G (window-off-the-neck)\n    | frets: 4-30\n    the neck has frets 0 to 18: write 4-18',
    ],
    [`tune: ${ROW}.musicxml\nfrets: 8-4`, 'line 2, column 8: error: "frets" does not take "8-4"'],
    [
      `tune: ${ROW}.musicxml\ntuning: x`,
      'line 2, column 9: error: "tuning" does not take "x": "x" is not a note with an octave',
    ],
    [
      `tune: ${ROW}.musicxml\npart: Flute`,
      'line 2, column 7: error: there is no part "Flute" (unknown-part)\n    | part',
    ],
    [`tune: ${ROW}.musicxml\nkey: H major`, 'line 2, column 6: error: '],
    [
      `tune: ${ROW}.musicxml\noctaves: 5`,
      'line 2, column 10: error: Ukulele, high G does not have 5 octaves',
    ],
    ['lesson: A', 'error: the lesson names no tune'],
    ['tune: a: b', 'error: this is not YAML'],
    ['tune: a\ntune: b', 'error: this key stands here a second time'],
    ['', 'error: the lesson names no tune'],
  ])('refuses %s', async (text, message) => {
    const here = terminal(ROW);
    await here.run('ln -s .. link');
    here.write('a.yaml', text);
    const { stdout, stderr, status } = await here.run('fretward lesson a.yaml');
    expect([status, stdout]).toEqual([1, '']);
    expect(stderr).toContain(message);
    expect(stderr).not.toMatch(/\n\s+at /);
  });

  it('makes the good lessons beside a bad one', async () => {
    const here = terminal(ROW);
    here.write('bad.yaml', 'tunes: x');
    here.write('good.yaml', `tune: ${ROW}.musicxml`);
    const { status } = await here.run('fretward lesson bad.yaml good.yaml none.yaml');
    expect(status).toBe(1);
    expect(here.files('good')).toContain('index.html');
  });
});
