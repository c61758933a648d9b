/** `--depfile`, as make reads it. */
import { describe, expect, it } from 'vitest';
import { ROW } from '../terminal.ts';
import { BUILD, withTunes } from './tunes.ts';

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
