/** `--transpose` with a key: on the sheets, on the chart, and where it cannot be. */
import { expect, it } from 'vitest';
import { MICHAEL, terminal } from './terminal.ts';

it.each([
  ['D', 'moved up 2 semitones', 2],
  ['"E major"', 'moved up 4 semitones', 4],
  ['C', '', 0],
])('goes the nearest way from C: %s', async (key, said, semitones) => {
  const term = terminal(MICHAEL);
  const { stdout, status } = await term.run(`fretward arrange ${MICHAEL}.musicxml --transpose ${key}`);
  expect(status).toBe(0);
  expect(stdout).toContain(said);
  const by = await term.run(`fretward arrange ${MICHAEL}.musicxml --transpose ${semitones}`);
  expect(by.stdout).toBe(stdout);
});

it('moves the chord chart with the tune', async () => {
  const term = terminal(MICHAEL);
  const line = `fretward chords ${MICHAEL}.musicxml --transpose`;
  expect(await term.run(`${line} D`)).toEqual(await term.run(`${line} 2`));
});

it.each(['arrange --sheets tab', 'chords', 'neck', 'cues'])('%s says how far it was moved', async command => {
  const term = terminal(MICHAEL);
  const line = `fretward ${command} ${MICHAEL}.musicxml --transpose`;
  expect((await term.run(`${line} 2`)).stdout).toContain('moved up 2 semitones');
  expect((await term.run(`${line} 0`)).stdout).not.toContain('moved');
  if (command === 'cues') return;
  const { stdout } = await term.run(`${line} 2 --to svg --out -`);
  expect(stdout).toContain('>Moved up 2 semitones<');
});

it.each([
  ['arrange', '"G minro"', 2, 'is "G minor" meant?'],
  ['arrange', 'H', 2, 'a key such as C or "G minor"'],
  [
    'arrange',
    '"G minor"',
    1,
    'the tune is in C major, and moving it does not make it minor (cannot-reach-key)\n    name a key of its own mode, such as "B♭ major", which has the signature of G minor; or semitones',
  ],
  ['explain', 'G#', 1, 'G♯ major would need a key signature of 8 sharps (cannot-reach-key)'],
  ['chords C', 'D', 2, '--transpose to a key needs a tune'],
])('%s refuses %s', async (command, key, status, said) => {
  const term = terminal(MICHAEL);
  const tune = command === 'chords C' ? '' : `${MICHAEL}.musicxml`;
  const answer = await term.run(`fretward ${command} ${tune} --transpose ${key}`);
  expect([answer.stdout, answer.status]).toEqual(['', status]);
  expect(answer.stderr).toContain(said);
});

it('is said by its line where fretward.yaml asks for it', async () => {
  const term = terminal(MICHAEL);
  term.write('fretward.yaml', 'frets: 0-8\ntranspose: G minor\n');
  const { stderr } = await term.run(`fretward difficulty ${MICHAEL}.musicxml`);
  expect(stderr).toContain('fretward.yaml, line 2: error: the tune is in C major');
});
