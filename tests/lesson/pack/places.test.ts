/** Nothing in a pack contradicts anything else: all its parts play a note in the same place. */
import { describe, expect, it } from 'vitest';
import { rulesFrom, windowsIn } from '../../../src/fingering/rules.ts';
import { soundAt } from '../../../src/instrument/places.ts';
import type { Content } from '../../../src/lesson/pack/make.ts';
import type { Edition } from '../../../src/lesson/pack/pack.ts';
import { midi } from '../../../src/score/pitch.ts';
import { placementsOf, struckHeads } from '../../support/lesson.ts';
import { EXAMPLE_TUNES, exampleTune, packOf, windowOf } from '../../support/pack.ts';

/** For each pitch, by MIDI number, the places in which a part plays it: "3:7". */
type Places = Map<number, Set<string>>;

const placesIn = (content: Content, { arrangement }: Edition): Places | undefined => {
  const places: Places = new Map();
  const add = (sound: number, { string, fret }: { string: number; fret: number }): void => {
    places.set(sound, (places.get(sound) ?? new Set()).add(`${string}:${fret}`));
  };
  switch (content.kind) {
    case 'chart':
      return undefined;
    case 'music': {
      const placements = placementsOf(content.tune, content.arrangement);
      struckHeads(content.tune).forEach((head, index) => {
        add(midi(head.pitch), placements[index]!);
      });
      return places;
    }
    case 'neck':
      for (const place of content.map.places.filter(({ kind }) => kind === 'used'))
        add(soundAt(arrangement.instrument, place), place);
      return places;
    case 'cues':
      for (const phrase of content.cues.phrases)
        for (const { notes } of phrase.measures)
          for (const { pitch, placement } of notes) add(midi(pitch), placement);
      return places;
  }
};

const named = (edition: Edition) =>
  edition.parts.flatMap(({ name, contents }) =>
    contents.flatMap(content => {
      const places = placesIn(content, edition);
      return places ? [{ name, places }] : [];
    }),
  );

const WINDOWS = [
  ['frets 4-8', [windowOf(4, 8)]],
  ['frets 1-5', [windowOf(1, 5)]],
  ['two windows', [windowOf(2, 6), windowOf(5, 9, 5, 8)]],
] as const;

describe.each(EXAMPLE_TUNES)('a pack of %s', name => {
  const tune = exampleTune(name);

  describe.each(WINDOWS)('in %s', (_, windows) => {
    const { pack } = packOf(tune, windows, { drill: { grade: 2, seed: 7 } });

    /** Whether a place lies in a window in which the tune does not play that pitch. */
    const isNew = (sound: number, place: string): boolean => {
      const fret = Number(place.split(':')[1]);
      const inForce = windowsIn(
        rulesFrom({ windows }),
        tune.measures.map(({ number }) => number),
      );
      return windows.some(({ window }) => {
        const part = tune.measures.filter((_measure, index) => inForce[index] === window);
        const sounds = struckHeads({ ...tune, measures: part }).map(head => midi(head.pitch));
        return fret >= window.low && fret <= window.high && !sounds.includes(sound);
      });
    };

    it('plays a note of the tune alike in every pair of parts', () => {
      for (const edition of pack.editions) {
        const all = named(edition);
        expect(all.map(each => each.name)).toEqual(
          expect.arrayContaining(['scale', 'quiz', 'names', 'tab', 'blank', 'neck', 'cues', 'drill']),
        );
        const inTune = all.find(each => each.name === 'tab')!.places;
        let compared = 0;
        for (const a of all) {
          for (const b of all) {
            for (const [sound, places] of a.places) {
              const others = b.places.get(sound);
              if (!others) continue;
              compared += 1;
              const where = `${a.name} and ${b.name}, note ${sound}, ${edition.arrangement.instrument.id}`;
              // A tune may play a pitch in several places; what goes by it chooses one of them.
              const shared = [...places].filter(place => others.has(place));
              expect(shared.length, where).toBe(Math.min(places.size, others.size));
              const known = inTune.get(sound);
              if (known)
                for (const place of places)
                  expect(known.has(place) || (a.name === 'scale' && isNew(sound, place)), where).toBe(true);
            }
          }
        }
        expect(compared).toBeGreaterThan(100);
      }
    });

    it('says and maps exactly what the tablature shows', () => {
      for (const edition of pack.editions) {
        const all = named(edition);
        const tab = all.find(each => each.name === 'tab')!.places;
        for (const part of ['quiz', 'names', 'blank', 'neck', 'cues'])
          expect(all.find(each => each.name === part)!.places, part).toEqual(tab);
      }
    });
  });
});
