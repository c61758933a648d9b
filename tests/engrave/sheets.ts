/** Engraves hand-made tunes for tests. */
import { type Engraving, engrave, type SheetOptions } from '../../src/engrave/engrave.ts';
import type { Tune } from '../../src/score/tune.ts';
import { instrument, lowestPlaces, type MeasureSpec, tuneOf } from '../emit/text/tunes.ts';

export const sheet = (tune: Tune, options: Partial<SheetOptions> = {}, on = 'ukulele-low-g'): Engraving =>
  engrave(tune, lowestPlaces(tune, instrument(on)), { sheet: 'tab', ...options });

/** The marks of a tune in staff-space heights: a staff of 4 mm has a staff space of 1 mm. */
export const small = (specs: readonly MeasureSpec[], heading: Partial<Tune> = {}) =>
  sheet(tuneOf(specs, heading), { staffSize: 4 });

export { instrument, lowestPlaces, tuneOf };
