/** `lesson --init --for`: a lesson file on a tune, which the next command makes at once. */
import { describe, expect, it } from 'vitest';
import { GRACE, MICHAEL, ROW, terminal } from '../terminal.ts';

const EXAMPLES = [ROW, MICHAEL, GRACE];

/** The value of a key that stands in the text. */
const entry = (text: string, key: string): string | undefined =>
  new RegExp(`^${key}: (.*)$`, 'm').exec(text)?.[1];

describe('fretward lesson --init --for', () => {
  it.each(EXAMPLES)('begins a lesson on %s, in frets that hold it for both ukuleles', async name => {
    const term = terminal(name);
    const begun = await term.run(`fretward lesson --init monday --for ${name}.musicxml`);
    expect(begun).toEqual({ stdout: 'monday.yaml\n', stderr: '', status: 0 });
    const text = term.read('monday.yaml');
    expect(entry(text, 'tune')).toBe(`${name}.musicxml`);
    expect(text).toContain('instrument: [ukulele-low-g, ukulele]');
    const { stderr, status } = await term.run('fretward lesson monday.yaml');
    expect([status, stderr.includes('note-outside-window')]).toEqual([0, false]);
  });

  it('names a tune that lies elsewhere, whatever it is called', async () => {
    const term = terminal();
    term.tune(ROW, 'our tunes/Für Élise: #1 – "neu".musicxml');
    const name = `'our tunes/Für Élise: #1 – "neu".musicxml'`;
    await term.run(`fretward lesson --init lessons/new/a.yaml --for ${name}`);
    expect(entry(term.read('lessons/new/a.yaml'), 'within')).toBe('../..');
    const { status, stderr } = await term.run('fretward lesson lessons/new/a.yaml -q');
    expect([status, stderr]).toEqual([0, '']);
    // Through a link, too.
    await term.run(
      `mkdir home; ln -s ../lessons home/there; fretward lesson --init home/there/b.yaml --for ${name}`,
    );
    expect(await term.run('fretward lesson home/there/b.yaml -q')).toMatchObject({ status: 0, stderr: '' });
  });

  it.each([
    ['Blow the man down, '.repeat(15), /^"(Blow the man down, ){10}Blow …"$/],
    ['🎸'.repeat(150), /^"(🎸){99} …"$/u],
  ])('calls it by as much of a long title as a lesson may be called', async (title, name) => {
    const term = terminal(ROW);
    const text = term.read(`${ROW}.musicxml`);
    term.write(
      'a.musicxml',
      text.replace(/<work-title>.*?<\/work-title>/, `<work-title>${title}</work-title>`),
    );
    await term.run('fretward lesson --init a.yaml --for a.musicxml');
    expect(entry(term.read('a.yaml'), 'lesson')).toMatch(name);
    const { status, stderr } = await term.run('fretward lesson a.yaml -q');
    expect([status, stderr]).toEqual([0, '']);
  });

  it('moves a tune that fits nowhere, and leaves out chords that there are not', async () => {
    const term = terminal();
    term.tune(ROW, 'low.musicxml');
    const text = term.read('low.musicxml').replace(/<octave>(\d)</g, (_, octave) => `<octave>${octave - 1}<`);
    term.write('low.musicxml', text.replace(/<harmony[\s\S]*?<\/harmony>/g, ''));
    await term.run('fretward lesson --init a.yaml --for low.musicxml');
    const begun = term.read('a.yaml');
    expect(Number(entry(begun, 'transpose'))).toBeGreaterThan(0);
    expect(entry(begun, 'parts')).toBe('[scale, quiz, names, tab, neck, cues]');
    const { status, stderr } = await term.run('fretward lesson a.yaml');
    expect([status, stderr.includes('lesson-without-chords')]).toEqual([0, false]);
  });

  it.each([
    [`--init a.yaml ${ROW}.musicxml`, `write fretward lesson --init a.yaml --for ${ROW}.musicxml`, 2],
    [`--init ${ROW}.musicxml`, `write fretward lesson --init monday.yaml --for ${ROW}.musicxml`, 2],
    [`a.yaml --for ${ROW}.musicxml`, `write fretward lesson --init a.yaml --for ${ROW}.musicxml`, 2],
    ['--init a.yaml --for -', 'save the tune', 2],
    ['--init a.yaml --for b.yaml', 'name a MusicXML file', 2],
    ['--init a.yaml --for row-row-row-your-bot.musicxml', `is ${ROW}.musicxml meant?`, 1],
    [`--init a.yaml --for ${ROW}.musicxml --watch`, '--init makes no sheets', 2],
  ])('fretward lesson %s is told what was meant', async (line, hint, status) => {
    const term = terminal(ROW);
    const answer = await term.run(`fretward lesson ${line}`);
    expect([answer.status, answer.stdout]).toEqual([status, '']);
    expect(answer.stderr).toContain(hint);
    expect(term.has('a.yaml')).toBe(false);
  });
});
