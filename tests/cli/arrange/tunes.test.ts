/** `fretward arrange` of one tune and of many: what is read and what is written. */
import { mkdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { GRACE, MICHAEL, ROW, terminal } from '../terminal.ts';

describe('one tune', () => {
  it('is tablature on standard output, and nothing else is said', async () => {
    const term = terminal(ROW);
    const { stdout, stderr, status } = await term.run(`fretward arrange ${ROW}.musicxml`);
    expect(status).toBe(0);
    expect(stderr).toBe('');
    expect(stdout).toContain('Row, Row, Row Your Boat');
    expect(stdout).toMatch(/^A ┌─/m);
    expect(term.files()).toEqual([`${ROW}.musicxml`]);
  });

  it('is printed sheets in a folder, which is made, and the files are listed', async () => {
    const term = terminal(ROW);
    const { stdout, status } = await term.run(`fretward arrange ${ROW}.musicxml --to svg --out new/sheets`);
    expect(status).toBe(0);
    expect(stdout).toBe(`new/sheets/${ROW}.ukulele.tab.svg\nnew/sheets/${ROW}.ukulele.quiz.svg\n`);
    expect(term.read(`new/sheets/${ROW}.ukulele.tab.svg`)).toMatch(/^<(\?xml|svg)/);
  });

  it('is one sheet on standard output with --out -, also from standard input', async () => {
    const term = terminal(ROW);
    const { stdout, status } = await term.run(
      `fretward arrange - --to svg --sheets tab --out - < ${ROW}.musicxml > tab.svg && fretward arrange ${ROW}.musicxml --to svg --sheets tab --out - | cmp - tab.svg && echo equal`,
    );
    expect(status).toBe(0);
    expect(stdout).toBe('equal\n');
    expect(term.read('tab.svg')).toContain('</svg>');
  });

  it('is refused on a terminal pipe that asks for several sheets at once', async () => {
    const { stderr, stdout, status } = await terminal(ROW).run(
      `fretward arrange ${ROW}.musicxml --to svg --sheets tab,quiz --out -`,
    );
    expect(status).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toContain('--out - takes a single sheet');
  });

  it('has an edition for each instrument', async () => {
    const term = terminal(ROW);
    const { status } = await term.run(
      `fretward arrange ${ROW}.musicxml -i ukulele -i ukulele-low-g,guitar -s tab --to text --out out`,
    );
    expect(status).toBe(0);
    expect(term.files('out')).toEqual([
      `${ROW}.guitar.tab.txt`,
      `${ROW}.ukulele-low-g.tab.txt`,
      `${ROW}.ukulele.tab.txt`,
    ]);
  });

  it('names the notes without a place in the window by measure and beat, and what would help', async () => {
    const { stderr, status } = await terminal(MICHAEL).run(
      `fretward arrange ${MICHAEL}.musicxml -f 4-8 --open never`,
    );
    expect(status).toBe(0);
    expect(stderr).toMatch(
      new RegExp(
        `^${MICHAEL}\\.musicxml, line \\d+, part P1, pickup beat 1: warning: C4 has no place in frets 4-8`,
      ),
    );
    expect(stderr).toMatch(/every note would fit/);
  });

  it('is read again without a word where it was written on two staves', async () => {
    const term = terminal(ROW);
    await term.run(`fretward arrange ${ROW}.musicxml --to musicxml,mxl --staves 2 --out out`);
    const { stdout } = await term.run(`fretward arrange ${ROW}.musicxml`);
    for (const kind of ['musicxml', 'mxl']) {
      const again = await term.run(`fretward arrange out/*.${kind} --keep-marked`);
      expect(again).toEqual({ stdout, stderr: '', status: 0 });
    }
  });

  it('replaces sheets that are there', async () => {
    const term = terminal(ROW);
    term.write(`out/${ROW}.ukulele.tab.txt`, 'old');
    expect((await term.run(`fretward arrange ${ROW}.musicxml --out out -q`)).status).toBe(0);
    expect(term.read(`out/${ROW}.ukulele.tab.txt`)).toContain('Row, Row');
  });
});

describe('many tunes', () => {
  it('are found in a folder to its bottom, and their sheets lie as they do', async () => {
    const term = terminal();
    term.tune(ROW, 'tunes/b.musicxml');
    term.tune(GRACE, 'tunes/deep/er/a.xml');
    term.write('tunes/notes.txt', 'no tune');
    const { stdout, status } = await term.run('fretward arrange tunes -s tab --out out');
    expect(status).toBe(0);
    expect(stdout).toBe('out/b.ukulele.tab.txt\nout/deep/er/a.ukulele.tab.txt\n');
  });

  it('are named by a glob, which the program spells out where the shell does not', async () => {
    const term = terminal();
    term.tune(ROW, 'tunes/b.musicxml');
    term.tune(GRACE, 'tunes/deep/a.musicxml');
    term.tune(MICHAEL, 'tunes/deep/c.xml');
    const { stdout } = await term.run('fretward arrange "tunes/**/*.musicxml" -s tab --out out');
    expect(stdout).toBe('out/b.ukulele.tab.txt\nout/deep/a.ukulele.tab.txt\n');
    const none = await term.run('fretward arrange "tunes/*.mid" --out out');
    expect(none.status).toBe(1);
    expect(none.stderr).toContain('tunes/*.mid: error: no MusicXML file has a name like this (no-match)');
  });

  it('may have a name that looks like a glob', async () => {
    const term = terminal();
    term.tune(ROW, 'row [draft].musicxml');
    const { stdout, status } = await term.run('fretward arrange "row [draft].musicxml" -s tab --out out');
    expect(status).toBe(0);
    expect(stdout).toBe('out/row [draft].ukulele.tab.txt\n');
  });

  it('are written even where one is missing and another is broken, which are named', async () => {
    const term = terminal(ROW, GRACE);
    term.write('bad.musicxml', '<score-partwise>\n  <part-list>\n</score-partwise>');
    const { stdout, stderr, status } = await term.run(
      `fretward arrange ${ROW}.musicxml missing.mxl bad.musicxml ${GRACE}.musicxml -s tab --out out`,
    );
    expect(status).toBe(1);
    expect(stdout).toBe(`out/${ROW}.ukulele.tab.txt\nout/${GRACE}.ukulele.tab.txt\n`);
    expect(stderr).toContain('missing.mxl: error: there is no such file or folder (cannot-read)');
    expect(stderr).toMatch(/bad\.musicxml, line 3, column \d+: error: the XML is broken/);
    expect(stderr).toContain('    | </score-partwise>\n');
    expect(stderr).toContain('4 tunes: 2 refused, 2 written');
  });

  it.each([
    ['arrange . -s tab', 'tab.txt'],
    ['chords tune.musicxml tune.xml', 'chords.txt'],
    ['cues .', 'cues.txt'],
    ['survey . --to svg', 'survey.svg'],
  ])('never overwrite one another: fretward %s', async (command, made) => {
    const term = terminal();
    term.tune(ROW, 'tune.xml');
    term.tune(GRACE, 'tune.musicxml');
    const { stderr, status } = await term.run(`fretward ${command} --out out`);
    expect(status).toBe(1);
    expect(stderr).toContain(
      'tune.xml: error: its sheets would overwrite those of tune.musicxml (same-output)',
    );
    expect(term.files('out')).toEqual([`tune.ukulele.${made}`]);
    expect(term.read(`out/tune.ukulele.${made}`)).toContain('Amazing Grace');
  });

  it('are not looked for among the sheets', async () => {
    const term = terminal(ROW);
    const line = 'fretward arrange . --to musicxml --out out';
    await term.run(line);
    const again = await term.run(line);
    expect(again).toMatchObject({ status: 0, stdout: '', stderr: '1 tune: 1 up to date\n' });
  });
});

describe('names and places', () => {
  it('may hold blanks and letters of any script', async () => {
    const term = terminal();
    term.tune(ROW, 'Übung 1/Lied für 学生.musicxml');
    const { stdout, status } = await term.run('fretward arrange "Übung 1" -s tab --out "Meine Blätter"');
    expect(status).toBe(0);
    expect(stdout).toBe('Meine Blätter/Lied für 学生.ukulele.tab.txt\n');
  });

  it('may hold what steers a terminal, which is shown and not obeyed', async () => {
    const term = terminal();
    term.write('a\n\u001b[31mb.musicxml', 'no music');
    const { stderr, status } = await term.run('fretward arrange .');
    expect(status).toBe(1);
    expect(stderr).toMatch(/^a\\n\\x1b\[31mb\.musicxml, line 1/);
  });

  it('are the same from another folder', async () => {
    const term = terminal(ROW);
    mkdirSync(term.path('elsewhere'));
    const { status } = await term.run(`fretward arrange ../${ROW}.musicxml -s tab --out ../out -q`, {
      cwd: 'elsewhere',
    });
    expect(status).toBe(0);
    expect(term.files('out')).toEqual([`${ROW}.ukulele.tab.txt`]);
  });
});
