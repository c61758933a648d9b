/** How help is laid out, by the width of the terminal. */
import { Command } from 'commander';
import { describe, expect, test } from 'vitest';
import { HELP_LAYOUT, helpText } from '../../src/cli/help.ts';

const command = (helpWidth: number, layout: object): string =>
  new Command('example')
    .configureHelp({ ...layout, helpWidth })
    .description('What it does, told in a sentence of some length so that it fills more than one line.')
    .option(
      '-i, --instrument <id>',
      'one of ukulele, ukulele-low-g, baritone-ukulele, guitar, mandolin, bass',
    )
    .option('--tuning <notes>', 'open strings as you say them')
    .option('--plain')
    .helpInformation();

describe('help', () => {
  test.each([40, 50, 60, 80, 200])('keeps to %i columns', width => {
    for (const line of command(width, HELP_LAYOUT).split('\n'))
      expect(line.length).toBeLessThanOrEqual(width);
  });

  test('says what an option does under its name where there is no room beside it', () => {
    expect(command(40, HELP_LAYOUT)).toContain(
      '  --tuning <notes>\n      open strings as you say them\n  --plain\n',
    );
  });

  test('is as the parser lays it out where there is room', () => {
    expect(command(80, HELP_LAYOUT)).toBe(command(80, {}));
  });

  test('fills its paragraphs, and keeps what is indented in lines of its own', () => {
    const text =
      'Options without a value are off,\nunless their help says otherwise.\n\n  frets: 4-8\n  out: sheets\n';
    expect(helpText(text, 40)).toBe(
      'Options without a value are off, unless\ntheir help says otherwise.\n\n  frets: 4-8\n  out: sheets\n',
    );
    expect(helpText('Examples:\n  one\n    two', 80)).toBe('Examples:\n  one\n    two');
    expect(helpText('a word and\nanother', 80)).toBe('a word and another');
  });
});
