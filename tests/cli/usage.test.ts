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
    ['--frets 8-4', 'write the lower fret first: 4-8'],
    ['-i ukelele', 'is ukulele meant? use one of ukulele, ukulele-low-g'],
    ['--tuning "G C E A"', '"G" is not a note with an octave'],
    ['--capo 40', 'write a whole number from 0 to 36'],
    ['--to sgv', 'is svg meant? use one of text, svg'],
    ['--to svg', 'say where with --out <folder>'],
    ['--paper a5', 'is a4 meant?'],
    ['--jobs 0', 'write a whole number from 1 to 256'],
    ['--shard 3/2', '1/4 is the first of four'],
    ['--max-bytes lots', 'write a number of bytes'],
    ['--report json', 'say where they are with --out <folder>'],
    ['--out o --verify --watch', '--verify and --watch do not go together'],
    ['--out o --dry-run --depfile d', '--dry-run and --depfile do not go together'],
    ['--place A4', 'write pitch=string:fret'],
    ['--transpose far', 'write semitones from -24 to 24, or best'],
    ['--transpose 30', 'write semitones from -24 to 24, or best'],
    ['--config none.yaml', 'there is no such file'],
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
    ['fretward codes note-outside-windw', 'is note-outside-window meant?'],
  ])('%s', async (line, hint) => {
    expect(await wrong(line)).toContain(hint);
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
