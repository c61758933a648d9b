/** `fretward schema lesson`, tried by a validator. */
import { describe, expect, it } from 'vitest';
import { terminal } from '../terminal.ts';
import { withExamples } from './examples.ts';

describe('fretward schema lesson', () => {
  it('takes the examples and refuses what the command refuses', async () => {
    const [{ Ajv2020 }, { parse }] = await Promise.all([import('ajv/dist/2020.js'), import('yaml')]);
    const here = withExamples();
    const { stdout } = await here.run('fretward schema lesson');
    const valid = new Ajv2020({ allowUnionTypes: true }).compile(JSON.parse(stdout));
    for (const name of ['frets-4-to-8', 'two-windows']) {
      expect(valid(parse(here.read(`lessons/${name}.yaml`))), JSON.stringify(valid.errors)).toBe(true);
    }
    const tune = 'a.musicxml';
    expect(valid({ tune, capo: 2, 'one-place': true, parts: 'scale, tab', frets: '4-8' })).toBe(true);
    for (const bad of [
      {},
      { tune, fret: '4-8' },
      { tune, paper: 'a5' },
      { tune, parts: ['quizz'] },
      { tune, 'one-place': 'yes' },
    ])
      expect(valid(bad), JSON.stringify(bad)).toBe(false);
  });

  it('knows no other schema', async () => {
    const { stderr, status } = await terminal().run('fretward schema lessn');
    expect([status, stderr]).toEqual([
      2,
      'error: schema does not take "lessn" (usage)\n    is lesson meant? use one of lesson, arrangement\n',
    ]);
  });
});
