/** The commands that answer something about tunes, as text and as JSON, and the scripts for shells and man. */
import { describe, expect, it } from 'vitest';
import { attributes, note, partWise } from '../support/musicxml.ts';
import { GRACE, MICHAEL, ROW, terminal } from './terminal.ts';

describe.each([
  ['inspect', 'melody: part P1', 'melody'],
  ['explain', 'string:fret', 'editions'],
  ['difficulty', 'points a note', 'editions'],
  ['survey', 'widest reach', 'surveys'],
])('fretward %s', (command, words, key) => {
  it('answers as text, for every tune', async () => {
    const { stdout, stderr, status } = await terminal(ROW, GRACE).run(`fretward ${command} .`);
    expect({ stderr, status }).toEqual({ stderr: '', status: 0 });
    expect(stdout).toContain('Row, Row, Row Your Boat');
    expect(stdout).toContain('Amazing Grace');
    expect(stdout).toContain(words);
  });

  it('answers as JSON, an array with an entry for each tune', async () => {
    const { stdout, status } = await terminal(ROW, GRACE).run(`fretward ${command} . --json`);
    expect(status).toBe(0);
    const answers = JSON.parse(stdout);
    expect(answers.map((each: { file: string }) => each.file)).toEqual([
      `${GRACE}.musicxml`,
      `${ROW}.musicxml`,
    ]);
    for (const each of answers) expect(each[key]).toBeTruthy();
  });

  it('answers for the other tunes where one is missing', async () => {
    const { stdout, stderr, status } = await terminal(ROW).run(
      `fretward ${command} missing.mxl ${ROW}.musicxml`,
    );
    expect(status).toBe(1);
    expect(stderr).toContain('missing.mxl: error: there is no such file or folder (cannot-read)');
    expect(stdout).toContain('Row, Row, Row Your Boat');
  });
});

describe('fretward explain --measure', () => {
  it.each([
    ['2', ['2']],
    ['pickup', ['0']],
    ['2-4', ['2', '3', '4']],
    ['pickup–1', ['0', '1']],
    ['15-40', ['15']],
  ])('%s takes these measures', async (typed, measures) => {
    const { stdout } = await terminal(GRACE).run(
      `fretward explain ${GRACE}.musicxml --measure ${typed} --json`,
    );
    const [{ editions }] = JSON.parse(stdout);
    const notes: readonly { readonly measure: string }[] = editions[0].notes;
    expect([...new Set(notes.map(each => each.measure))]).toEqual(measures);
  });
});

describe('fretward explain --match', () => {
  const asked = `${GRACE}.musicxml -i ukulele-low-g,ukulele -f 2-8 --match`;

  it('counts the notes that lie elsewhere, and gives them no price', async () => {
    const term = terminal(GRACE);
    const { stdout } = await term.run(`fretward explain ${asked} --json -q`);
    await term.run(`fretward arrange ${asked} --to json --out out -q`);
    const [{ editions }] = JSON.parse(stdout);
    for (const edition of editions) {
      const written = JSON.parse(term.read(`out/${GRACE}.${edition.instrument}.json`));
      expect(edition.cost).toBe(written.cost);
    }
    type Other = { readonly regret: number; readonly differences: number };
    const others: readonly Other[] = editions[1].notes.flatMap((note: { others: Other[] }) => note.others);
    expect(others.some(({ differences }) => differences > 0)).toBe(true);
    for (const { regret } of others) expect(Math.abs(regret)).toBeLessThan(1000);
  });

  it('says so in words', async () => {
    const { stdout } = await terminal(GRACE).run(`fretward explain ${asked} -q`);
    expect(stdout).toMatch(/ \+\d+\.\d\d and [1-9]\d* more differences?\b/);
    expect(stdout).not.toMatch(/\d{6}/);
  });

  it('says so of whole fingerings', async () => {
    const { stdout } = await terminal(GRACE).run(`fretward explain ${asked} -q --alternatives 30`);
    expect(stdout).toMatch(/points and [1-9]\d* more differences?: /);
    expect(stdout).not.toMatch(/\d{6}/);
  });
});

it('fretward inspect says how a transposing part sounds', async () => {
  const term = terminal();
  const clarinet =
    '<time><beats>4</beats><beat-type>4</beat-type></time><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>';
  term.write('clarinet.musicxml', partWise(attributes(clarinet) + note('D4', 48)));
  const { stdout } = await term.run('fretward inspect clarinet.musicxml');
  expect(stdout).toMatch(/part P1 .*; transposing: sounds down 2 semitones$/m);
  expect(stdout).toContain('1 note, C4 to C4');
});

describe('the narrowest window that holds a whole tune', () => {
  it('is named in the same words by inspect and by survey, or what stands in its way', async () => {
    const term = terminal(MICHAEL);
    const inspected = (await term.run(`fretward inspect ${MICHAEL}.musicxml`)).stdout;
    for (const id of ['ukulele', 'ukulele-low-g', 'bass']) {
      const { stdout } = await term.run(`fretward survey ${MICHAEL}.musicxml -i ${id} --rows 1`);
      const [, sentence] = /^As it is written: (.+)\.$/m.exec(stdout)!;
      expect(inspected).toMatch(new RegExp(`^ +${id} +${sentence}(; windows of 5 frets: .*)?$`, 'm'));
    }
    expect(inspected).toMatch(/bass +E4, F4, G4, A4 cannot be played/);
  });
});

describe('fretward completion', () => {
  it('completes commands, options and their words in bash', async () => {
    const term = terminal(ROW);
    const completed = async (words: string, index: number): Promise<string> => {
      const script = `eval "$(fretward completion bash)"; COMP_WORDS=(${words}); COMP_CWORD=${index}; _fretward; echo "\${COMPREPLY[@]}"`;
      return (await term.run(script)).stdout.trim();
    };
    expect(await completed('fretward arr', 1)).toBe('arrange');
    expect(await completed('fretward arrange --keep-m', 2)).toBe('--keep-marked');
    expect(await completed('fretward arrange -i guit', 3)).toBe('guitar');
    expect(await completed('fretward arrange --paper ""', 3)).toMatch(/^a4 letter/);
    expect(await completed('fretward arrange row', 2)).toBe(`${ROW}.musicxml`);
    expect(await completed('fretward completion z', 2)).toBe('zsh');
  });

  // Each command line is run with each word: what is completed to is taken, and what else there is, is not.
  it.each([
    ['arrange', `${ROW}.musicxml -o out`, '--to', 'text svg pdf png musicxml mxl json midi'],
    ['scale', 'C major -f 4-8 -o out', '--to', 'text svg pdf png musicxml mxl json midi'],
    ['drill', '-f 4-8 -i ukulele-low-g -o out', '--to', 'text svg pdf png musicxml mxl json midi'],
    ['chords', 'Am -o out', '--to', 'text svg pdf png'],
    ['neck', `${ROW}.musicxml -o out`, '--to', 'text svg pdf png'],
    ['survey', `${ROW}.musicxml -o out`, '--to', 'text svg'],
    ['chords', 'Am', '--open', 'never free'],
  ])('completes %s %s %s to what it takes, in every shell', async (command, rest, flag, words) => {
    const term = terminal(ROW);
    const scripts = await Promise.all(
      ['bash', 'zsh', 'fish'].map(async shell => (await term.run(`fretward completion ${shell}`)).stdout),
    );
    const [bash, zsh, fish] = scripts as [string, string, string];
    const part = (script: string, from: string, to: string): string =>
      script.slice(script.indexOf(from)).split(to)[0]!;
    expect(part(bash, `    ${command})\n`, 'esac')).toMatch(
      new RegExp(`${flag}\\) COMPREPLY=\\(\\$\\(compgen -W "${words}"`),
    );
    expect(part(zsh, `    ${command})\n`, ';;')).toMatch(new RegExp(`'\\*${flag}\\[.*:\\(${words}\\)'`));
    expect(fish).toMatch(new RegExp(`from ${command}' -l ${flag.slice(2)}( -s .)? -x -a '${words}'`));
    const all = flag === '--to' ? 'text svg pdf png musicxml mxl json midi' : 'never rescue free';
    for (const word of all.split(' ')) {
      const { status } = await term.run(`fretward ${command} ${rest} ${flag} ${word}`);
      expect([word, status]).toEqual([word, words.split(' ').includes(word) ? 0 : 2]);
    }
  });

  it.each(['zsh', 'fish'])('is a script that %s can read, where it is installed', async shell => {
    const { stdout, stderr } = await terminal().run(
      `fretward completion ${shell} > script; command -v ${shell} > /dev/null && ${shell} -n script; cat script`,
    );
    expect(stderr).toBe('');
    for (const word of ['arrange', '--keep-marked', 'baritone-ukulele'].map(each =>
      each.replace(/^--/, ''),
    )) {
      expect(stdout).toContain(word);
    }
  });
});

describe('fretward manual', () => {
  it('is a page that man can set, with every command and option', async () => {
    const { stdout } = await terminal().run('fretward manual');
    expect(stdout).toMatch(/^\.TH FRETWARD 1/);
    expect(stdout).toContain('.SS arrange');
    expect(stdout).toContain('\\fB\\-\\-keep\\-marked\\fR');
    // A line that begins with a dot is a request: only those of man(7) are there.
    const requests = [...stdout.matchAll(/^\.([A-Za-z]+)/gm)].map(match => match[1]);
    expect([...new Set(requests)].sort()).toEqual(['B', 'I', 'SH', 'SS', 'TH', 'TP', 'br']);
  });
});

describe('fretward codes', () => {
  it('says what a code means, why it comes up, and what to do', async () => {
    const { stdout } = await terminal(MICHAEL).run('fretward codes note-outside-window');
    expect(stdout).toMatch(
      /^note-outside-window \(warning\)\n {2}what: .+\n {2}why: .+\n {2}what to do: (.|\n)+\n$/,
    );
  });
});
