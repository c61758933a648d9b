import { describe, expect, it } from 'vitest';
import { differencesBetween } from '../../../src/fingering/differences.ts';
import { strikesOf } from '../../../src/fingering/strikes.ts';
import { differencesInWords } from '../../../src/lesson/pack/differences.ts';
import type { Block } from '../../../src/lesson/pack/prose.ts';
import { placementsOf } from '../../support/lesson.ts';
import { EXAMPLE_TUNES, exampleTune, packOf, windowOf } from '../../support/pack.ts';

const textOf = (blocks: readonly Block[]): string =>
  blocks
    .map(block => {
      if (block.kind === 'list') return block.items.map(textOf).join('\n');
      return block.kind === 'quote' ? textOf(block.blocks) : block.words.map(({ text }) => text).join('');
    })
    .join('\n');

describe('where editions differ', () => {
  it.each(EXAMPLE_TUNES)('is every struck note of %s that lies elsewhere, and no other', name => {
    const { pack } = packOf(exampleTune(name), [windowOf(4, 8)]);
    const [low, high] = pack.editions.map(each => each.arrangement);
    const [here, there] = [placementsOf(pack.tune, high!), placementsOf(pack.tune, low!)];
    const counted = here.filter(
      ({ string, fret }, index) => string !== there[index]!.string || fret !== there[index]!.fret,
    );
    const { strikes } = strikesOf(pack.tune);
    const found = differencesBetween(strikes, high!, low!);
    expect(found.map(each => each.here)).toEqual(counted);
    expect(differencesBetween(strikes, low!, high!)).toHaveLength(counted.length);
  });

  it('is said in words, alike notes together', () => {
    const { pack } = packOf(exampleTune('michael-row-the-boat-ashore'), [windowOf(4, 8)]);
    const [low, high] = pack.editions;
    expect(textOf(high!.differences)).toBe(
      [
        '8 notes lie elsewhere than on Ukulele, low G:',
        'C4 on string 3 open, not string 4 fret 5: pickup beat 1; measure 6 beat 3; measure 8 beats 1 and 3; measure 9 beat 1',
        'D4 on string 3 fret 2, not string 4 fret 7: measure 6 beats 1 and 4; measure 7 beat 3',
      ].join('\n'),
    );
    expect(textOf(low!.differences)).toContain('C4 on string 4 fret 5, not string 3 open');
  });

  it('is said where there are none', () => {
    const { pack } = packOf(exampleTune('row-row-row-your-boat'), [windowOf(4, 8)]);
    const [low, high] = pack.editions.map(each => each.arrangement);
    expect(textOf(differencesInWords(pack.tune, high!, low!))).toBe(
      'Every note lies where it does on Ukulele, low G.',
    );
  });
});
