/** What commands say and print of several tunes and editions: once, and apart from each other. */
import { describe, expect, it } from 'vitest';
import { MICHAEL, ROW, terminal } from './terminal.ts';

describe('characters that the fonts lack', () => {
  const named = async (command: string, title: string): Promise<number> => {
    const term = terminal(MICHAEL);
    const tune = term.read(`${MICHAEL}.musicxml`);
    term.write(
      'a.musicxml',
      tune.replace(/<work-title>.*?<\/work-title>/, `<work-title>${title}</work-title>`),
    );
    const { stderr } = await term.run(`fretward ${command} a.musicxml -i ukulele,guitar --to svg --out out`);
    return stderr.split('characters-not-carried').length - 1;
  };

  it.each(['survey', 'chords', 'neck', 'arrange'])('%s names them, once for two editions', async command => {
    expect(await named(command, '海')).toBe(1);
  });

  it.each(['survey', 'chords', 'neck', 'arrange'])('%s prints none of its own', async command => {
    expect(await named(command, 'Row')).toBe(0);
  });
});

it.each(['arrange', 'cues', 'chords'])('%s leaves a line between two tunes', async command => {
  const term = terminal(MICHAEL, ROW);
  const run = async (tunes: string): Promise<string> =>
    (await term.run(`fretward ${command} ${tunes} -q -i ukulele,guitar`)).stdout;
  const [one, other] = [await run(`${MICHAEL}.musicxml`), await run(`${ROW}.musicxml`)];
  expect(await run(`${MICHAEL}.musicxml ${ROW}.musicxml`)).toBe(`${one}\n${other}`);
});
