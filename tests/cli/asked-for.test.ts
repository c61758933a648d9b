/** What is asked for and is not there, or is there more than once: measures, parts, and instruments offered as a way out. */
import { describe, expect, it } from 'vitest';
import { attributes, note, scoreOf } from '../support/musicxml.ts';
import { GRACE, terminal } from './terminal.ts';

describe('measures that the tune does not have', () => {
  it.each([
    [
      'explain',
      '--measure 99',
      'no note is struck in measure 99 (no-note-to-place)',
      'pickup, measures 1-15',
    ],
    ['explain', '--measure 90-99', 'no note is struck in measures 90-99 (no-note-to-place)', 'measures 1-15'],
    [
      'arrange',
      '--place m99.1=2:5',
      'no note is struck in measure 99 beat 1 (no-note-to-place)',
      'measures 1-15',
    ],
    [
      'arrange',
      '-f 1-16:4-8,17-32:10-15',
      'there are no measures 17-32 for a window',
      'pickup, measures 1-16',
    ],
    ['cues', '-f 90-99:4-8', '(window-without-measures)', 'pickup, measures 1-16'],
  ])('%s %s', async (command, options, message, hint) => {
    const { stdout, stderr, status } = await terminal(GRACE).run(
      `fretward ${command} ${GRACE}.musicxml -i ukulele-low-g ${options}`,
    );
    expect([stdout.trim(), status]).toEqual(['', 1]);
    expect(stderr).toContain(message);
    expect(stderr).toContain(hint);
  });

  it('are no reason to leave the other tunes unanswered', async () => {
    const term = terminal(GRACE);
    term.write('short.musicxml', DUO);
    const { stdout, status } = await term.run('fretward explain . -i ukulele-low-g --measure 7');
    expect(status).toBe(1);
    expect(stdout).toContain('Amazing Grace');
  });

  it('are written the wrong way round', async () => {
    const { stderr, status } = await terminal(GRACE).run(`fretward explain ${GRACE}.musicxml --measure 4-2`);
    expect([stderr, status]).toEqual([expect.stringContaining('write the earlier measure first: 2-4'), 2]);
  });
});

const part = (id: string, content: string): string =>
  `<part id="${id}"><measure number="1">${attributes()}${content}</measure></part>`;
const listed = (id: string, name: string): string =>
  `<score-part id="${id}"><part-name>${name}</part-name></score-part>`;
const DUO = scoreOf(
  listed('P1', 'Guitar') + listed('P2', 'Guitar') + listed('P3', 'Guitar') + listed('P4', 'Flute'),
  part('P1', note('r', 48)) +
    part('P2', note('C4', 48)) +
    part('P3', note('E4', 48)) +
    part('P4', note('G4', 48)),
);

describe('--part', () => {
  it.each(['Guitar', 'guitar'])(
    'of several parts called %s takes the first with notes, and says so',
    async name => {
      const term = terminal();
      term.write('duo.musicxml', DUO);
      const { stdout, stderr, status } = await term.run(`fretward explain duo.musicxml --part ${name}`);
      expect([stdout, status]).toEqual([expect.stringContaining('C4'), 0]);
      expect(stderr).toBe(
        'duo.musicxml: note: of 2 parts called Guitar, the first is taken: P2 (part-chosen)\n    choose another by its id: --part P3\n',
      );
      expect((await term.run('fretward explain duo.musicxml --part P3')).stderr).toBe('');
    },
  );

  it('says what is meant where it is mistyped', async () => {
    const term = terminal();
    term.write('duo.musicxml', DUO);
    const { stderr } = await term.run('fretward arrange duo.musicxml --part Flut');
    expect(stderr).toContain('is Flute meant? the parts are P1 (Guitar)');
  });
});

it('an instrument is no way out while its edition is made too', async () => {
  const term = terminal(GRACE);
  const hints = async (instruments: string): Promise<string> =>
    (await term.run(`fretward arrange ${GRACE}.musicxml -f 4-8 -i ${instruments} --transpose -2`)).stderr;
  expect(await hints('ukulele')).toMatch(/; or on ukulele-low-g/);
  const both = await hints('ukulele,ukulele-low-g');
  expect(both).toContain('every note');
  expect(both).not.toMatch(/ on .*ukulele-low-g/);
});
