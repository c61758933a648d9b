/**
 * Where things lie on a drawn neck, in millimetres. Frets are to scale: each lies where the formula puts
 * it, times one factor for the whole map, which is 1 where the paper allows.
 *
 * Along is the way from the nut, across the way from string 1: the map is laid out once, and turned or
 * mirrored when points are put on paper.
 */
import { fretDistance } from '../../instrument/neck.ts';
import type { NeckMap } from '../../lesson/neck/map.ts';

export interface NeckLayout {
  readonly map: NeckMap;
  readonly upright: boolean;
  readonly leftHanded: boolean;
  /** mm on paper for a mm of the neck. */
  readonly factor: number;
  /** Between strings. */
  readonly gap: number;
  /** Of discs. */
  readonly radius: number;
}

/** A point of the neck, before it is turned. */
export interface NeckPoint {
  readonly along: number;
  readonly across: number;
}

/** Before the nut: names of strings and open places. Beyond the last fret: strings that go on. */
export const AROUND = { before: 17, beyond: 5, beside: 11 } as const;

const WIDEST_GAP = 9;
const LARGEST_RADIUS = 3.4;

/** Lays a map out in a given length. */
export function layOutNeck(
  map: NeckMap,
  length: number,
  { upright, leftHanded }: { readonly upright: boolean; readonly leftHanded: boolean },
): NeckLayout {
  const { strings, scaleLength, capo } = map.instrument;
  const own = fretDistance(scaleLength, capo + map.lastFret) - fretDistance(scaleLength, capo);
  const factor = Math.min(1, (length - AROUND.before - AROUND.beyond) / own);
  const gap = Math.min(WIDEST_GAP, 44 / Math.max(1, strings.length - 1));
  const draft: NeckLayout = { map, upright, leftHanded, factor, gap, radius: 0 };
  const shown = map.places.filter(({ fret }) => fret > 0 && fret <= map.lastFret);
  const narrowest = Math.min(...shown.map(({ fret }) => fretAt(draft, fret) - fretAt(draft, fret - 1)));
  return { ...draft, radius: Math.min(LARGEST_RADIUS, gap * 0.43, narrowest * 0.46) };
}

/** Distance of a fret from the nut (or the capo) on paper. */
export const fretAt = ({ map: { instrument }, factor }: NeckLayout, fret: number): number => {
  const { scaleLength, capo } = instrument;
  return factor * (fretDistance(scaleLength, capo + fret) - fretDistance(scaleLength, capo));
};

/** Distance of a string from string 1. */
export const stringAt = ({ gap }: NeckLayout, string: number): number => (string - 1) * gap;

/** The middle of a place: between its fret and the one before; an open one before the nut. */
export const placeAt = (layout: NeckLayout, string: number, fret: number): NeckPoint => ({
  along: fret === 0 ? -layout.radius - 2.8 : (fretAt(layout, fret - 1) + fretAt(layout, fret)) / 2,
  across: stringAt(layout, string),
});

/** Size of the board: to the last fret, and across all strings. */
export const boardSize = (layout: NeckLayout): NeckPoint => ({
  along: fretAt(layout, layout.map.lastFret),
  across: stringAt(layout, layout.map.instrument.strings.length),
});

/**
 * A point on paper, counted from the upper left corner of the drawing without its surroundings. Level,
 * string 1 is on top as in tablature, and the nut at the left; upright, the nut is on top and string 1 at
 * the right. For the left-handed both are mirrored from left to right.
 */
export const onPaper = (layout: NeckLayout, { along, across }: NeckPoint): readonly [number, number] => {
  const size = boardSize(layout);
  if (layout.upright) return [layout.leftHanded ? across : size.across - across, along];
  return [layout.leftHanded ? size.along - along : along, across];
};

/** Width and height of the drawing on paper, with what is around the board. */
export const drawingSize = (layout: NeckLayout): { readonly width: number; readonly height: number } => {
  const { along, across } = boardSize(layout);
  const length = AROUND.before + along + AROUND.beyond;
  const breadth = across + 2 * AROUND.beside;
  return layout.upright ? { width: breadth, height: length } : { width: length, height: breadth };
};
