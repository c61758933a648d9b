/** Every option says its default, and what a file switches on the command line can switch off. */
import { describe, expect, it } from 'vitest';
import { OPTIONS } from '../../src/cli/options/options.ts';
import { flagOf, isFlag, type OptionRow } from '../../src/cli/options/row.ts';
import { GRACE, ROW, terminal } from './terminal.ts';

const rows: readonly OptionRow[] = Object.values(OPTIONS);

describe('the table of options', () => {
  it.each(rows.filter(row => !isFlag(row)).map(row => [flagOf(row), row] as const))(
    'says the default of %s',
    (_, row) => expect(row.default).toMatch(/\S/),
  );

  it('has each name and each short letter once', () => {
    const names = rows.flatMap(({ flags }) => flags.match(/-[a-z-]+/g)!);
    expect(names.filter((name, index) => names.indexOf(name) < index)).toEqual([]);
  });

  it.each(rows.filter(({ flags }) => flags.includes('<mm>')).map(row => [flagOf(row), row] as const))(
    'gives %s and its default in mm',
    (_, row) => expect(`${row.help}, ${row.default}`).toMatch(/\d mm.*, \d+ mm$/),
  );
});

describe('commands that read tunes', () => {
  const commands = [
    'arrange',
    'inspect',
    'survey',
    'explain',
    'difficulty',
    'scale',
    'chords',
    'neck',
    'cues',
  ];

  it.each([...commands, 'drill', 'check', 'lesson'])('%s limits their size', async name => {
    const { stdout } = await terminal().run(`fretward ${name} --help`);
    expect(stdout).toContain('--max-bytes <size>');
    expect(stdout).toContain('--max-notes <count>');
  });

  it.each(commands.map(name => (name === 'scale' ? 'scale --for' : name)))(
    '%s obeys the limit',
    async name => {
      const { stderr, status } = await terminal(ROW).run(`fretward ${name} ${ROW}.musicxml --max-notes 3`);
      expect(status, stderr).toBe(1);
      expect(stderr).toContain('(too-many-notes)');
    },
  );

  it.each(commands.filter(name => name !== 'neck' && name !== 'scale'))('%s takes globs', async name => {
    const { stderr } = await terminal(ROW).run(`fretward ${name} "*.mxl"`);
    expect(stderr).toContain('*.mxl: error: no MusicXML file has a name like this (no-match)');
  });
});

describe('a flag that fretward.yaml sets', () => {
  const inForce = async (typed: string): Promise<readonly string[]> => {
    const here = terminal(ROW);
    here.write('fretward.yaml', `match: true\ncolor: false\ntunes:\n  ${ROW}:\n    match: false\n`);
    const { stdout } = await here.run(`fretward config . ${typed}`);
    return stdout.split('\n').map(line => line.split(/ {2,}/).slice(0, 3).join(' '));
  };

  it('holds, for one tune otherwise', async () => {
    const lines = await inForce('');
    expect(lines).toContain('all match true');
    expect(lines).toContain('all color false');
    expect(lines).toContain(`${ROW}.musicxml match false`);
  });

  it('is switched off singly, and back on', async () => {
    const lines = await inForce('--no-match --color');
    expect(lines).toContain('all match false');
    expect(lines).toContain('all color true');
  });
});

it('the pickup is called so, where measures are named by their numbers', async () => {
  const here = terminal(GRACE);
  const said = async (options: string): Promise<string> =>
    (await here.run(`fretward arrange ${GRACE}.musicxml -i ukulele-low-g ${options}`)).stdout;
  expect(await said('-f pickup-8:4-8,9-16:7-12')).toBe(await said('-f 0-8:4-8,9-16:7-12'));
  expect(await said('-f 2-8 --place pickup.1=4:7')).toBe(await said('-f 2-8 --place m0.1=4:7'));
  expect(await said('-f 2-8 --place pickup.1=4:7')).not.toBe(await said('-f 2-8'));
});
