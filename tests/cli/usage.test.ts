/** What is typed wrong, and what the program says of itself. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ROW, terminal } from './terminal.ts';

const wrong = (line: string): Promise<string> => said(line, 2);

const said = async (line: string, wanted: number): Promise<string> => {
  const { stdout, stderr, status } = await terminal(ROW).run(line);
  expect(status, stderr).toBe(wanted);
  expect(stdout).toBe('');
  expect(stderr).not.toMatch(/\n\s+at /);
  return stderr;
};

describe('wrong usage ends with status 2 and says what is right', () => {
  it.each([
    ['--fret 4-8', 'there is no option --fret here (usage)\n    is --frets meant?'],
    ['--frets four', 'write the lower and the higher fret with a hyphen: 4-8'],
    ['--frets', '--frets <low-high> lacks its value'],
    ['--hand 11cm', 'your reach from index to little finger, 60 to 160 mm'],
    ['--tempo fast', 'write a whole number from 10 to 400 beats a minute'],
    ['-i none.json', '--instrument does not take "none.json": there is no such file'],
    ['--frets 9-5', 'write the lower fret first: 5-9'],
    ['--frets 4-8,5-9', '--frets does not take "4-8,5-9" (usage)\n    name one window; another one needs'],
    ['--frets 8-1:4-8', 'write the earlier measure first'],
    ['--window 4-8', 'there is no option --window here (usage)\n    is --frets meant?'],
    ['--key G', 'there is no option --key here (usage)\n    is --transpose meant?'],
    ['-frets 4-8', 'there is no option -frets here (usage)\n    is --frets meant?'],
    ['-i "low g"', 'is ukulele-low-g meant?'],
    ['-i ukelele', 'is ukulele meant? use one of ukulele, ukulele-low-g'],
    ['--tuning "G C E A"', '--tuning does not take "G C E A": "G" is not a note with an octave'],
    ['--capo 40', 'write a whole number from 0 to 36'],
    ['--to sgv', 'is svg meant? use one of text, svg'],
    ['--to svg', 'say where with --out <folder>'],
    ['--paper a5', 'is a4 meant?'],
    ['--jobs 0', 'write a whole number from 1 to 256'],
    ['--share 3/2', '1/4 is the first of four'],
    ['--max-bytes lots', 'write a number of bytes'],
    ['--report json', 'say where they are with --out <folder>'],
    ['--out o --verify --watch', '--verify and --watch do not go together'],
    [
      '--out o --verify --force',
      '--verify and --force do not go together (usage)\n    --verify writes nothing: leave out --verify to write, or --force to look',
    ],
    ['--out o --dry-run --depfile d', '--dry-run and --depfile do not go together'],
    ['--place A4', 'write pitch=string:fret'],
    ['--place "E4=2:0 G4=2:3"', 'put commas between: E4=2:0,G4=2:3'],
    ['--sheets "tab  quiz"', 'put commas between: tab,quiz'],
    ['--transpose far', 'write semitones from -24 to 24, a key such as C or "G minor", or best'],
    ['--transpose 30', 'write semitones from -24 to 24, a key such as C or "G minor", or best'],
    ['--config none.yaml', 'there is no such file'],
    ['--out hope.pdf', '--out does not take "hope.pdf" (usage)\n    name a folder, such as sheets'],
    ['--font none.ttf', 'there is no such file'],
  ])('fretward arrange tune %s', async (options, hint) => {
    expect(await wrong(`fretward arrange ${ROW}.musicxml ${options}`)).toContain(hint);
  });

  it.each([
    ['fretward arrang tune.mxl', 'there is no command "arrang" (usage)\n    is arrange meant?'],
    ['fretward', 'Commands:'],
    ['fretward arrange', 'no tune is named (usage)\n    fretward arrange --help lists'],
    ['fretward arrange - -', 'standard input (-) can be read only once'],
    ['fretward arrange - --watch --out o', '--watch cannot watch standard input'],
    ['fretward completion tcsh', 'completion does not take "tcsh" (usage)\n    use one of bash, zsh, fish'],
    ["fretward arrange ''", 'the name of a tune is empty'],
    ["fretward lesson ''", 'the name of a lesson file is empty'],
    ['fretward survey tune.mxl --window 4-8', 'fretward survey --help lists what it takes'],
    ['fretward lesson --init a.yaml -f 4-8', 'how a tune is arranged stands in the lesson file'],
    [
      'fretward codes note-outside',
      'there is no code "note-outside" (usage)\n    is note-outside-window meant?',
    ],
    ['fretward codes window-', '    there are window-off-the-neck, window-without-measures'],
    ['fretward codes left-ot', '    is left-out meant?'],
    ['fretward chords C --sheets tab', 'is --frets or --shapes meant?'],
    [
      'fretward chords C -f 15-30',
      'frets 15-30 are no window on this neck (usage)\n    the neck has frets 0 to 18: write 15-18',
    ],
    [
      'fretward neck C major',
      'more than one name is typed (usage)\n    a scale goes after --key: --key "C major"',
    ],
    ['fretward arrange lesson --frets', 'fretward arrange --help lists what it takes'],
    ['fretward neck chords scale', 'fretward neck --help lists what it takes'],
    ['fretward --quiet chords C', 'options stand after a command'],
    [
      'fretward chords C --transpose best',
      '--transpose best needs a melody to be arranged (usage)\n    fretward arrange says which key that is',
    ],
    ['fretward codes note-outside-windw', 'is note-outside-window meant?'],
    ['fretward codes window', 'there are note-outside-window, open-string-in-window, place-outside-window'],
    [`fretward ${ROW}.musicxml`, `fretward arrange ${ROW}.musicxml arranges a tune`],
    ['fretward monday.yaml', 'fretward lesson monday.yaml makes a lesson'],
    ['fretward inspect https://example.org/tune.mxl', 'is an address, and no file'],
    ['fretward scale tune.mxl', 'tune.mxl is a tune, and no scale (usage)\n    write --for tune.mxl'],
    ['fretward scale C major --for monday.yaml', 'monday.yaml is a lesson file, and no tune'],
    ['fretward drill tune.mxl', 'a name is typed where none goes (usage)\n    a tune goes after --for;'],
    ['fretward neck a.mxl b.mxl', 'more than one name is typed (usage)\n    a scale goes after --key'],
    [
      'fretward chords C --open rescue',
      '--open does not take "rescue" here (usage)\n    use one of never, free',
    ],
  ])('%s', async (line, hint) => {
    expect(await wrong(line)).toContain(hint);
  });

  it.each(['arrange', 'inspect', 'survey', 'explain', 'check', 'cues', 'chords', 'neck'])(
    'fretward %s of a lesson file',
    async command => {
      expect(await wrong(`fretward ${command} monday.yaml`)).toContain(
        'monday.yaml is a lesson file, and no tune (usage)\n    fretward lesson monday.yaml makes what it says',
      );
    },
  );

  it('takes a window with blanks, and is said of a lesson that is a tune', async () => {
    const { status } = await terminal(ROW).run(`fretward arrange ${ROW}.musicxml -f "4 - 8"`);
    expect(status).toBe(0);
    expect(await said(`fretward lesson ${ROW}.musicxml`, 1)).toContain(
      `${ROW}.musicxml: error: this is a tune, and no lesson file (lesson-broken)\n    fretward lesson --init monday.yaml --for`,
    );
  });

  it('names the notes and the beats that there are where a place is chosen for none', async () => {
    const place = (pin: string) => said(`fretward arrange ${ROW}.musicxml --place ${pin}`, 1);
    expect(await place('A9=2:5')).toContain('    the notes are F4, G4, A4, B♭4, C5, F5');
    expect(await place('m1.9=2:5')).toMatch(/measure 1 beat 9 .*\n {4}notes are struck in measure 1 beats /);
    expect(await place('m99.1=2:5')).toContain('    notes are struck in measures 1-');
    expect(await place('G4=9:3')).toMatch(/ {4}G4 lies on string 2 fret 3, .*; choose or mark one of them/);
  });

  it('is a line of JSON for machines', async () => {
    const typed = JSON.parse(await wrong(`fretward arrange ${ROW}.musicxml --fret 4-8 --json-errors`));
    expect(typed).toMatchObject({ code: 'usage', hint: 'is --frets meant?' });
    const value = JSON.parse(await wrong(`fretward arrange ${ROW}.musicxml --to gif --json-errors`));
    expect(value).toMatchObject({ severity: 'error', code: 'usage', message: '--to does not take "gif"' });
  });
});

describe('the program tells of itself', () => {
  it('its version', async () => {
    const manifest = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
    const { stdout, status } = await terminal().run('fretward --version');
    expect({ stdout, status }).toEqual({ stdout: `${manifest.version}\n`, status: 0 });
  });

  it('help with examples, for every command', async () => {
    const term = terminal();
    const { stdout } = await term.run('fretward --help');
    expect(stdout).toContain('Examples:');
    const names = [...stdout.slice(stdout.indexOf('Commands:')).matchAll(/^ {2}([a-z]+) /gm)].map(
      match => match[1]!,
    );
    expect(names).toContain('arrange');
    for (const name of names.filter(each => each !== 'help' && each !== 'fretward')) {
      const help = await term.run(`fretward ${name} --help`);
      expect(help.status, name).toBe(0);
      expect(help.stdout, name).toMatch(/^Usage: fretward [a-z]+ /);
      expect(help.stdout, name).toContain(`  fretward ${name}`);
      expect(help.stdout, name).toContain('Examples:');
    }
  }, 60_000);
});
