/** `--depfile`, as make reads it. */
import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { ROW } from '../terminal.ts';
import { BUILD, withTunes } from './tunes.ts';

const hasMake = spawnSync('make', ['--version']).status === 0;
if (!hasMake) console.warn('skipped: tests with make, which is not there');

describe.skipIf(!hasMake)('make, which runs fretward', () => {
  it.each([
    ['tunes', `${BUILD} --depfile out.d`, 'tunes/00.musicxml', 'out/00.ukulele.tab.txt'],
    ['a lesson', 'fretward lesson a.yaml --depfile out.d', 'a.yaml', 'a/index.html'],
  ])(
    'for %s, has nothing to do once it has done so after a touch that changed nothing',
    async (_, line, source, sheet) => {
      const term = withTunes(1);
      term.write('a.yaml', 'tune: tunes/00.musicxml\nparts: [quiz]\nto: svg\n');
      term.write('Makefile', `${sheet}: ${source}\n\t${line} -q\n-include out.d\n`);
      const made = `${line} -q\n`;
      const nothing = `make: '${sheet}' is up to date.\n`;
      expect((await term.run('make')).stdout).toContain(made);
      expect((await term.run('make')).stdout).toBe(nothing);
      for (const time of ['now', 'now + 1 second']) {
        expect((await term.run(`touch -d '${time}' ${source}; make; sleep 1`)).stdout).toBe(made);
        expect((await term.run('make')).stdout).toBe(nothing);
      }
    },
  );
});

describe('make', () => {
  it('understands --depfile: nothing to do, then one tune to do', async () => {
    const term = withTunes(2);
    term.tune(ROW, 'tunes/a b$c#d.musicxml');
    await term.run(`${BUILD} --depfile out.d`);
    term.write(
      'Makefile',
      `SHEETS := out/00.ukulele.tab.txt out/01.ukulele.tab.txt\nall: $(SHEETS)\n$(SHEETS):\n\techo make $@\n-include out.d\n`,
    );
    const make = await term.run('command -v make > /dev/null && make -s || echo none');
    if (make.stdout === 'none\n') return;
    expect(make.stdout).toBe('');
    expect((await term.run('sleep 1.1; touch tunes/01.musicxml; make -s')).stdout).toBe(
      'make out/01.ukulele.tab.txt\n',
    );
    expect(term.read('out.d')).toContain('out/a\\ b$$c\\#d.ukulele.tab.txt: tunes/a\\ b$$c\\#d.musicxml');
  });

  it('that cannot be written is told, and the sheets are made', async () => {
    const term = withTunes(1);
    const { stdout, stderr, status } = await term.run(`${BUILD} --depfile tunes`);
    expect([stdout, status]).toEqual(['out/00.ukulele.tab.txt\n', 1]);
    expect(stderr).toBe(
      'tunes: error: this is a folder, not a file (cannot-read)\n    the sheets are made; name another file with --depfile\n',
    );
  });

  it('takes the sheets of a tune that is broken for out of date, run after run', async () => {
    const term = withTunes(2);
    await term.run(`${BUILD} --depfile out.d`);
    const whole = term.read('out.d');
    const tune = term.read('tunes/01.musicxml');
    term.write('tunes/01.musicxml', '<broken');
    for (let run = 0; run < 2; run++) {
      expect((await term.run(`${BUILD} --depfile out.d`)).status).toBe(1);
      expect(term.read('out.d')).toBe(whole);
    }
    term.write('tunes/01.musicxml', tune);
    expect((await term.run(`${BUILD} --depfile out.d`)).status).toBe(0);
    expect(term.read('out.d')).toBe(whole);
  });
});
