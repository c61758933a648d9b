/** What a fretward.yaml beside the tunes says holds for every command that reads them, and not for arrange alone. */
import { describe, expect, it } from 'vitest';
import { GRACE, MICHAEL, ROW, terminal } from './terminal.ts';

const CONFIG = `instrument: ukulele-low-g
frets: 2-8
hand: large
tunes:
  ${ROW}:
    frets: 7-12
`;

/** Each with what it is asked about a tune. */
const COMMANDS = [
  'explain %',
  'difficulty %',
  'cues %',
  'chords %',
  'neck %',
  'scale --for %',
  'drill --for %',
  'scale --pattern thirds --for %',
  'neck --key "C major" --for %',
] as const;

describe.each(COMMANDS)('fretward %s', command => {
  const about = (tune: string): string => `fretward ${command.replace('%', `tunes/${tune}.musicxml`)}`;

  it('answers by the file as if it had been typed, for the tune that it names too', async () => {
    const term = terminal();
    for (const tune of [MICHAEL, ROW]) term.tune(tune, `tunes/${tune}.musicxml`);
    // Shapes of chords have a window of their own.
    const own = command.startsWith('chords');
    const typed = (frets: string): string => `-i ukulele-low-g --hand large ${own ? '' : `-f ${frets}`}`;
    const [some, other] = [
      await term.run(`${about(MICHAEL)} ${typed('2-8')}`),
      await term.run(`${about(ROW)} ${typed('7-12')}`),
    ];
    term.write('tunes/fretward.yaml', CONFIG);
    expect(await term.run(about(MICHAEL))).toEqual(some);
    expect(await term.run(about(ROW))).toEqual(other);
  });
});

it('what is typed wins, and --no-config obeys no file', async () => {
  const term = terminal(GRACE);
  const line = `fretward difficulty ${GRACE}.musicxml`;
  const plain = await term.run(line);
  const typed = await term.run(`${line} -i guitar -f 5-9`);
  term.write('fretward.yaml', 'instrument: ukulele-low-g\nfrets: 2-8\n');
  expect((await term.run(line)).stdout).toContain('low G');
  expect(await term.run(`${line} --no-config`)).toEqual(plain);
  expect(await term.run(`${line} -i guitar -f 5-9`)).toEqual(typed);
});

it('explain explains the fingering that arrange prints', async () => {
  const term = terminal(GRACE);
  term.write('fretward.yaml', 'instrument: ukulele-low-g\nfrets: 2-8\nlevel: least\nplace: B4=2:7\n');
  const { stdout } = await term.run(`fretward explain ${GRACE}.musicxml --json`);
  await term.run(`fretward arrange ${GRACE}.musicxml --to json --out out`);
  const [{ editions }] = JSON.parse(stdout);
  const explained = editions[0].notes.map((note: { touches: readonly { string: number; fret: number }[] }) =>
    note.touches.map(({ string, fret }) => `${string}:${fret}`).join(' '),
  );
  const sheet = term.files('out').find(name => name.endsWith('.json'));
  const places = [...term.read(`out/${sheet}`).matchAll(/"string":\s*(\d+),\s*"fret":\s*(\d+)/g)];
  expect(explained).toContain('2:7');
  const printed = new Set(places.map(([, string, fret]) => `${string}:${fret}`));
  expect(new Set(explained)).toEqual(printed);
});

it('a scale alone and chord symbols obey the file of the working folder', async () => {
  const term = terminal();
  term.write('fretward.yaml', 'instrument: ukulele-low-g\nfrets: 4-8\n');
  expect((await term.run('fretward scale C major')).stdout).toContain('low G');
  expect((await term.run('fretward chords C')).stdout).toContain('low G');
});

describe('of the file a command takes', () => {
  it('the options that it has, and of formats those that it knows', async () => {
    const term = terminal(MICHAEL);
    term.write(
      'fretward.yaml',
      'to: [musicxml, svg]\nout: sheets\nsheets: tab\nkeep-breaks: true\njobs: 2\n',
    );
    expect((await term.run(`fretward neck ${MICHAEL}.musicxml`)).stdout).toBe(
      `sheets/${MICHAEL}.ukulele.neck.svg\n`,
    );
    expect((await term.run(`fretward explain ${MICHAEL}.musicxml`)).status).toBe(0);
    expect((await term.run(`fretward survey ${MICHAEL}.musicxml`)).stdout).toBe(
      `sheets/${MICHAEL}.ukulele.survey.svg\n`,
    );
  });

  it('what is only about diagrams and cues, which arrange leaves alone', async () => {
    const term = terminal(MICHAEL);
    const line = `fretward neck ${MICHAEL}.musicxml`;
    const typed = await term.run(`${line} --left-handed --upright`);
    const plain = await term.run(`fretward arrange ${MICHAEL}.musicxml`);
    term.write('fretward.yaml', 'left-handed: true\nupright: true\n');
    expect(await term.run(line)).toEqual(typed);
    expect(await term.run(`fretward arrange ${MICHAEL}.musicxml`)).toEqual(plain);
    expect((await term.run('fretward config .')).stdout).toMatch(
      /^all +left-handed +true +fretward\.yaml, line 1$/m,
    );
  });

  it('what is said of one tune about cues, charts and maps of windows', async () => {
    const term = terminal();
    term.tune(GRACE, 'a.musicxml');
    const lines = [
      ['fretward cues a.musicxml', '--strings numbers --width 50 --ascii'],
      ['fretward chords a.musicxml', '--title Mine --width 50 --ascii --paper letter'],
      ['fretward survey a.musicxml --to svg --out -', '--paper letter --landscape'],
    ];
    const typed = await Promise.all(lines.map(([line, options]) => term.run(`${line} ${options}`)));
    term.write(
      'fretward.yaml',
      'tunes:\n  a: {strings: numbers, width: 50, ascii: true, title: Mine, paper: letter, landscape: true}\n',
    );
    expect(await Promise.all(lines.map(([line]) => term.run(line!)))).toEqual(typed);
  });

  it.each(['explain', 'survey', 'chords', 'inspect'])(
    'nothing where something in it is wrong: %s',
    async name => {
      const term = terminal(MICHAEL);
      term.write('fretward.yaml', 'frets: 4-8\nstaff-size: huge\nfretts: 4\n');
      const { stdout, stderr, status } = await term.run(`fretward ${name} ${MICHAEL}.musicxml`);
      expect([stdout, status]).toEqual(['', 2]);
      expect(stderr).toContain('fretward.yaml, line 2, column 13: error: "staff-size" does not take "huge"');
      expect(stderr).toContain('fretward.yaml, line 3, column 1: error: there is no key "fretts"');
    },
  );
});

it.each([
  ['instrument: ukelele', 'there is no instrument "ukelele"'],
  ['instrument: [ukulele, ukulele]', 'instrument: names ukulele twice'],
  ['capo: 30', 'a capo at fret 30 does not go on Ukulele, high G'],
  ['tuning: X', 'tuning: does not take "X"'],
])('wrong usage that the file is to blame for names its line: %s', async (line, message) => {
  const term = terminal(MICHAEL);
  term.write('fretward.yaml', `hand: small\n${line}\n`);
  for (const command of ['arrange', 'explain', 'neck', 'scale --for']) {
    const { stderr, status } = await term.run(`fretward ${command} ${MICHAEL}.musicxml`);
    expect(status).toBe(2);
    expect(stderr).toContain(`fretward.yaml, line 2: error: ${message}`);
  }
});
