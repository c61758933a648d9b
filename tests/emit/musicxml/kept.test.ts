/** An arrangement that is written, read again and arranged with its own marks is the same arrangement. */
import { describe, expect, test } from 'vitest';
import { toMusicXml } from '../../../src/emit/musicxml.ts';
import { arrange } from '../../../src/fingering/arrange.ts';
import type { Arrangement } from '../../../src/fingering/arrangement.ts';
import { rulesFrom, wholeTune } from '../../../src/fingering/rules.ts';
import { findInstrument, withCapo } from '../../../src/instrument/define.ts';
import { readScore } from '../../../src/read/read.ts';
import { chooseMelody } from '../../../src/score/melody.ts';
import type { Tune } from '../../../src/score/tune.ts';
import { bytesOf } from '../../support/musicxml.ts';
import { unlessRefused } from '../../support/refused.ts';
import { realTunes } from '../../support/tunes.ts';

/** String, fret and finger of every head, in the order in which they are written. */
const places = (tune: Tune, { placements }: Arrangement): readonly string[] =>
  tune.measures
    .flatMap(measure => measure.events)
    .flatMap(event => (event.kind === 'note' ? event.heads : []))
    .map(head => {
      const { string, fret, finger } = placements.get(head.id)!;
      return `${string}/${fret}[${finger}]`;
    });

const KEEP = rulesFrom({ keepMarked: true });

describe.each([
  ['guitar', findInstrument('guitar'), rulesFrom({ windows: wholeTune(4, 8) })],
  ['ukulele with a capo', withCapo(findInstrument('ukulele-low-g'), 2), rulesFrom()],
])('real tunes on the %s', (_, instrument, rules) => {
  const arranged = realTunes('all').flatMap(({ name, tune }) => {
    const arrangement = unlessRefused(() => arrange(tune, instrument, rules).arrangement);
    return arrangement ? [{ name, tune, arrangement }] : [];
  });

  test('some can be played', () => expect(arranged.length).toBeGreaterThanOrEqual(2));

  test.each([1, 2] as const)('keep their places, staves: %i', staves => {
    for (const { name, tune, arrangement } of arranged) {
      const xml = toMusicXml(tune, arrangement, { staves });
      const again = chooseMelody(readScore(bytesOf(xml)).score, { chords: 'all' }).tune;
      const kept = arrange(again, instrument, KEEP).arrangement;
      expect(places(again, kept), name).toEqual(places(tune, arrangement));
    }
  });
});
