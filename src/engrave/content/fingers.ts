/** Which left-hand fingers and positions are printed. */
import type { Arrangement, Finger, Placement } from '../../fingering/arrangement.ts';
import type { Tune } from '../../score/tune.ts';
import type { SheetOptions } from '../options.ts';

export interface HandMarks {
  /** By head id. */
  readonly fingers: ReadonlyMap<number, Finger>;
  /** Positions where they change, by event id. */
  readonly positions: ReadonlyMap<number, number>;
}

/** The finger that lies over a fret when the hand rests at a position. */
function usualFinger({ instrument }: Arrangement, fret: number, position: number): number {
  const step = instrument.hand === 'two-frets-a-finger' ? 2 : 1;
  return Math.floor((fret - position) / step) + 1;
}

const isSame = (a: Placement, b: Placement): boolean =>
  a.string === b.string && a.fret === b.fret && a.finger === b.finger;

export function handMarks(
  tune: Tune,
  arrangement: Arrangement,
  options: Pick<SheetOptions, 'fingers' | 'positions'>,
): HandMarks {
  const fingers = new Map<number, Finger>();
  const positions = new Map<number, number>();
  const asked = options.fingers ?? 'none';
  let position: number | undefined;
  let before: readonly Placement[] = [];
  for (const event of tune.measures.flatMap(measure => measure.events)) {
    if (event.kind !== 'note') continue;
    const here: Placement[] = [];
    for (const head of event.heads) {
      const place = arrangement.placements.get(head.id);
      if (!place || head.tieFrom !== undefined) continue;
      const stopped = place.fret > 0;
      const shifts = stopped && place.position !== position;
      // A note that is struck again keeps its finger, which has been said.
      const again = before.some(other => isSame(other, place));
      const unusual =
        stopped && !again && place.finger !== usualFinger(arrangement, place.fret, place.position);
      if (asked === 'all' || (asked === 'changes' && (shifts || unusual))) fingers.set(head.id, place.finger);
      if (shifts && options.positions) positions.set(event.id, place.position);
      if (stopped) position = place.position;
      here.push(place);
    }
    if (here.length > 0) before = here;
  }
  return { fingers, positions };
}

const ROMAN: readonly (readonly [number, string])[] = [
  [10, 'X'],
  [9, 'IX'],
  [5, 'V'],
  [4, 'IV'],
  [1, 'I'],
];

/** A position as a Roman numeral: 7 is VII. */
export function roman(value: number): string {
  let text = '';
  let left = value;
  for (const [size, letters] of ROMAN)
    while (left >= size) {
      text += letters;
      left -= size;
    }
  return text;
}
