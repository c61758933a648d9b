/** A part or an edition that cannot be played: left out, with what would help. */
import { describe, expect, it } from 'vitest';
import { attributes, note, scoreOf } from '../../support/musicxml.ts';
import { MICHAEL, terminal } from '../terminal.ts';

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
    /error: ukulele is left out: B3 cannot be played on Ukulele, high G: .*\(note-off-the-instrument\)\n +every note could be played in the key that it is written in; or on baritone-ukulele/;

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
