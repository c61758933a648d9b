/** `fretward arrange` as it is typed: what is read, what is written, what is said, and the exit status. */
import { chmodSync, mkdirSync, statSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { attributes, note, scoreOf } from '../support/musicxml.ts';
import { GRACE, isRoot, MICHAEL, NOBODY, ROW, terminal } from './terminal.ts';

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

  it('never overwrite one another', async () => {
    const term = terminal();
    term.tune(ROW, 'tune.xml');
    term.tune(GRACE, 'tune.musicxml');
    const { stderr, status } = await term.run('fretward arrange . -s tab --out out');
    expect(status).toBe(1);
    expect(stderr).toContain(
      'tune.xml: error: its sheets would overwrite those of tune.musicxml (same-output)',
    );
    expect(term.read('out/tune.ukulele.tab.txt')).toContain('Amazing Grace');
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

describe('where nothing can be written', () => {
  const asNobody = isRoot ? { uid: NOBODY } : {};

  it('says so, and leaves nothing', async () => {
    const term = terminal(ROW);
    mkdirSync(term.path('locked'));
    chmodSync(term.path('locked'), 0o555);
    const { stderr, status } = await term.run(`fretward arrange ${ROW}.musicxml --out locked`, asNobody);
    expect(status).toBe(1);
    expect(stderr).toContain(
      `locked/${ROW}.ukulele.tab.txt: error: the file may not be written (cannot-write)`,
    );
    expect(term.files('locked')).toEqual([]);
  });

  it('says that a folder may not be read', async () => {
    const term = terminal(ROW);
    mkdirSync(term.path('secret'));
    chmodSync(term.path('secret'), 0o000);
    const { stderr, status } = await term.run(
      `fretward arrange secret ${ROW}.musicxml -q > out.txt; exit $?`,
      {},
    );
    if (isRoot) {
      const nobody = await term.run(`fretward arrange secret`, asNobody);
      expect(nobody.status).toBe(1);
      expect(nobody.stderr).toContain('secret: error: it may not be read (cannot-read)');
    } else {
      expect(status).toBe(1);
      expect(stderr).toContain('secret: error: it may not be read (cannot-read)');
    }
  });

  it('writes none of the sheets of a tune where one cannot be', async () => {
    const term = terminal(ROW);
    mkdirSync(term.path(`out/${ROW}.ukulele.quiz.txt`), { recursive: true });
    const { stderr, status } = await term.run(`fretward arrange ${ROW}.musicxml --out out`);
    expect(status).toBe(1);
    expect(stderr).toContain('a folder is in the way where a file should be');
    expect(await term.run('find out -type f')).toMatchObject({ stdout: '' });
  });

  it('says that a file is in the way of a folder', async () => {
    const term = terminal(ROW);
    term.write('out', 'a file');
    const { stderr, status } = await term.run(`fretward arrange ${ROW}.musicxml --out out`);
    expect(status).toBe(1);
    expect(stderr).toContain('out: error: a file is in the way where a folder should be');
  });

  it.runIf(statSync('/dev/full', { throwIfNoEntry: false }))('says that the disk is full', async () => {
    const { stderr, status } = await terminal(ROW).run(`fretward arrange ${ROW}.musicxml > /dev/full`);
    expect(status).toBe(1);
    expect(stderr).toContain('standard output: error: the disk is full (cannot-write)');
  });

  it('ends quietly when nobody reads on', async () => {
    const { stdout, stderr } = await terminal(ROW).run(
      `fretward arrange ${ROW}.musicxml --width 1000 | head -1`,
    );
    expect(stdout).toContain('Row, Row, Row Your Boat');
    expect(stderr).toBe('');
  });
});

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

describe('a part that cannot be played', () => {
  it.each(['arrange', 'explain', 'survey', 'scale -f 4-8 --for'])(
    'is said by %s to be one of several, to choose another',
    async command => {
      const term = terminal();
      const list = ['P1', 'P2'].map(id => `<score-part id="${id}"><part-name>${id}</part-name></score-part>`);
      const parts = ['C2', 'E4'].map(
        (pitch, index) =>
          `<part id="P${index + 1}"><measure number="1">${attributes()}${note(pitch, 48)}</measure></part>`,
      );
      term.write('two.musicxml', scoreOf(list.join(''), parts.join('')));
      const { stderr, status } = await term.run(`fretward ${command} two.musicxml`);
      expect(stderr).toMatch(
        /note: of 2 parts with notes, the first is taken: P1 .*\n +choose another with --part: P2/,
      );
      expect(status).toBe(command === 'survey' ? 0 : 1);
    },
  );
});

describe('an edition that cannot be made', () => {
  // In B, the tune begins below the lowest string of a high-G ukulele.
  const line = `${MICHAEL}.musicxml -i ukulele,ukulele-low-g --transpose -1`;
  const message =
    /error: ukulele is left out: B3 cannot be played on Ukulele, high G: .*\(note-off-the-instrument\)\n +every note could be played transposed up 1 semitone; or on ukulele-low-g/;

  it.each(['arrange', 'explain', 'difficulty', 'cues', 'scale -f 4-8 --for', 'neck', 'chords'])(
    'is left out by %s, which answers for the other one and says so',
    async command => {
      const term = terminal(MICHAEL);
      const { stdout, stderr, status } = await term.run(`fretward ${command} ${line}`);
      if (command === 'chords') return expect(status).toBe(0);
      expect(stdout).toContain('low G');
      expect(stdout).not.toContain('high G');
      expect(stderr).toMatch(message);
      expect(status).toBe(1);
    },
  );

  it('is left out of a folder, its report and its table, each time', async () => {
    const term = terminal(MICHAEL);
    const build = `fretward arrange ${line} -s tab --out out`;
    for (const result of ['written', 'up-to-date']) {
      const { stdout, stderr, status } = await term.run(`${build} --report json`);
      const { tunes, summary } = JSON.parse(stdout);
      expect(tunes).toMatchObject([
        { result, leftOut: ['ukulele'], editions: [{ instrument: 'ukulele-low-g' }] },
      ]);
      expect(summary).toMatchObject({ tunes: 1, fit: 1, refused: 0, incomplete: 1 });
      expect(stderr).toMatch(message);
      expect(status).toBe(1);
    }
    expect(term.files('out')).toEqual([`${MICHAEL}.ukulele-low-g.tab.txt`]);
    const { stdout } = await term.run(`${build} --report text -q`);
    expect(stdout).toMatch(/ up-to-date +ukulele-low-g .*\n( {4}.*\n)*\S+ +refused +ukulele/);
    expect(stdout).toContain('1 without one of the editions\n');
  });
});
