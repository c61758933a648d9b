/** What is said: colour, folding, quiet, JSON, the line at fault. */
import { describe, expect, it } from 'vitest';
import { MICHAEL, ROW, terminal } from '../terminal.ts';

describe('what is said', () => {
  it('has no colour in a pipe, with NO_COLOR and with --no-color', async () => {
    const term = terminal(ROW);
    const plain = await term.run(`fretward arrange ${ROW}.musicxml`);
    expect(plain.stdout).not.toContain('\u001b');
    for (const line of [
      `NO_COLOR=1 fretward arrange ${ROW}.musicxml`,
      `fretward arrange ${ROW}.musicxml --no-color`,
    ]) {
      // A terminal by util-linux; it ends its lines with carriage returns.
      const { stdout } = await term.run(`script -qec "${line}" /dev/null`);
      expect(stdout).not.toContain('\u001b[');
      expect(stdout).toContain('Row, Row, Row Your Boat');
    }
  });

  it('has colour on a terminal', async () => {
    const { stdout } = await terminal(ROW).run(`script -qec "fretward arrange ${ROW}.musicxml" /dev/null`, {
      env: { TERM: 'xterm-256color' },
    });
    expect(stdout).toContain('\u001b[');
  });

  it.each([
    ...['arrange', 'inspect', 'check', 'chords', 'cues', 'difficulty', 'explain', 'survey'],
    ...['scale --for', 'drill --for', 'neck --for'],
  ])('shows the line of the file that is at fault on a terminal: fretward %s', async command => {
    const term = terminal(ROW);
    const name = `${ROW}.musicxml`;
    term.write(name, term.read(name).replace(/<duration>/, '<duration>-'));
    const { stdout } = await term.run(`script -qec "stty cols 300; fretward ${command} ${name}" /dev/null`);
    expect(stdout.split('\r\n').slice(0, 2)).toEqual([
      expect.stringMatching(
        `^${name}, line \\d+, part P1, measure 1: error: the duration of a <note> is -\\d+`,
      ),
      expect.stringMatching(/^ {4}\| <duration>-\d+<\/duration>$/),
    ]);
  });

  it('is folded between words on a terminal, and on a line of its own elsewhere', async () => {
    const term = terminal(MICHAEL);
    const line = `fretward arrange ${MICHAEL}.musicxml -f 4-8 > tab.txt`;
    const { stdout } = await term.run(`script -qec "stty cols 60; ${line}" /dev/null`);
    const folded = stdout.trimEnd().split('\r\n');
    expect(Math.max(...folded.map(each => each.length))).toBeLessThanOrEqual(60);
    const { stderr } = await term.run(line);
    const words = (text: string): readonly string[] => text.trim().split(/\s+/);
    expect(words(folded.join(' '))).toEqual(words(stderr));
    expect(folded.length).toBeGreaterThan(stderr.trimEnd().split('\n').length);
  });

  it('is nothing but errors with --quiet', async () => {
    const term = terminal(MICHAEL);
    const { stdout, stderr, status } = await term.run(
      `fretward arrange ${MICHAEL}.musicxml missing.mxl -f 4-8 --out out --quiet`,
    );
    expect(status).toBe(1);
    expect(stdout).toBe('');
    expect(stderr).toBe(
      'missing.mxl: error: there is no such file or folder (cannot-read)\n    check the path and its permissions\n',
    );
  });

  it('is nothing but JSON with --json-errors, where many tunes are summed up too', async () => {
    const term = terminal(MICHAEL);
    const { stderr } = await term.run(
      `fretward arrange ${MICHAEL}.musicxml missing.mxl -f 4-8 --to text --out out --json-errors`,
    );
    const lines = stderr.trim().split('\n');
    expect(lines.map(line => JSON.parse(line).code)).toContain('cannot-read');
  });

  it('is JSON, one diagnostic a line, with --json-errors', async () => {
    const term = terminal(MICHAEL);
    const { stderr, status } = await term.run(
      `fretward arrange ${MICHAEL}.musicxml missing.mxl -f 4-8 --json-errors`,
    );
    expect(status).toBe(1);
    const found = stderr
      .trim()
      .split('\n')
      .map(line => JSON.parse(line));
    expect(found.map(each => each.code)).toEqual([
      'open-string-in-window',
      'note-outside-window',
      'cannot-read',
    ]);
    expect(found[1]).toMatchObject({
      severity: 'warning',
      place: { file: `${MICHAEL}.musicxml`, measure: '6' },
    });
  });
});
