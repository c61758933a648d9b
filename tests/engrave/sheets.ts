/** Engraves hand-made tunes for tests. */
import { type Engraving, engrave, type SheetOptions } from '../../src/engrave/engrave.ts';
import type { Arrangement } from '../../src/fingering/arrangement.ts';
import type { Instrument } from '../../src/instrument/instrument.ts';
import type { Tune } from '../../src/score/tune.ts';
import { instrument, lowestPlaces, type MeasureSpec, tuneOf } from '../emit/text/tunes.ts';

/** Lowest places, but for chords: their heads each on a string of its own. */
function places(tune: Tune, on: Instrument): Arrangement {
  const arrangement = lowestPlaces(tune, on);
  const placements = new Map(arrangement.placements);
  for (const event of tune.measures.flatMap(({ events }) => events))
    if (event.kind === 'note' && event.heads.length > 1)
      event.heads.forEach(({ id }, i) => {
        placements.set(id, { ...placements.get(id)!, string: 1 + (i % on.strings.length) });
      });
  return { ...arrangement, placements };
}

export const sheet = (tune: Tune, options: Partial<SheetOptions> = {}, on = 'ukulele-low-g'): Engraving =>
  engrave(tune, places(tune, instrument(on)), { sheet: 'tab', ...options });

/** The marks of a tune in staff-space heights: a staff of 4 mm has a staff space of 1 mm. */
export const small = (specs: readonly MeasureSpec[], heading: Partial<Tune> = {}) =>
  sheet(tuneOf(specs, heading), { staffSize: 4 });

export { instrument, lowestPlaces, tuneOf };
