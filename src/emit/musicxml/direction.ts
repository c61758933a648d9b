/** `<direction>` and `<sound>`: what is written above and below the staff. */
import type { Direction } from '../../score/model/direction.ts';
import type { NoteValue, Ticks } from '../../score/model/duration.ts';
import { valueTicks } from '../../score/time.ts';
import { typeElements } from './value.ts';
import { element, empty, leaf, type XmlNode } from './xml.ts';

type Of<K extends Direction['kind']> = Direction & { readonly kind: K };

/** One direction at its moment; `offset` ticks after the place where it is written. */
export interface PlacedDirection {
  readonly at: Ticks;
  readonly element: (offset: Ticks) => XmlNode;
}

/**
 * The directions of a measure. A tempo that only sounds belongs to the printed words before it, if
 * there are any: they are written as one, as they were read.
 */
export const directionElements = (directions: readonly Direction[]): readonly PlacedDirection[] => {
  const placed: PlacedDirection[] = [];
  for (const [index, direction] of directions.entries()) {
    const before = directions[index - 1];
    if (before !== undefined && isSoundOf(before, direction)) continue;
    const after = directions[index + 1];
    const sound = after !== undefined && isSoundOf(direction, after) ? after.perMinute : undefined;
    placed.push({ at: direction.at, element: offset => directionElement(direction, offset, sound) });
  }
  return placed;
};

const isSoundOf = (words: Direction, sound: Direction): sound is Of<'tempo'> =>
  words.kind === 'tempo' &&
  words.printed &&
  words.perMinute === undefined &&
  sound.kind === 'tempo' &&
  !sound.printed &&
  sound.at === words.at;

const directionElement = (direction: Direction, offset: Ticks, sound: number | undefined): XmlNode => {
  switch (direction.kind) {
    case 'words':
      return wrapped(offset, direction.placement, [leaf('words', direction.text)]);
    case 'tempo':
      return tempoElement(direction, offset, sound);
    case 'sign':
      return wrapped(offset, 'above', [empty(direction.sign)]);
    case 'jump':
      return wrapped(offset, 'above', [leaf('words', direction.text)], JUMPS[direction.jump]);
    case 'rehearsal':
      return wrapped(offset, 'above', [leaf('rehearsal', direction.text)]);
    case 'dynamic':
      return wrapped(offset, 'below', [dynamicElement(direction.text)]);
    case 'octave-shift':
      return wrapped(offset, 'above', [octaveShiftElement(direction)]);
  }
};

type SoundAttributes = Readonly<Record<string, string | number>>;

const wrapped = (
  offset: Ticks,
  placement: 'above' | 'below',
  types: readonly XmlNode[],
  sound?: SoundAttributes,
): XmlNode =>
  element(
    'direction',
    { placement },
    types.map(each => element('direction-type', {}, each)),
    offset === 0 ? undefined : leaf('offset', offset),
    sound && element('sound', sound),
  );

const JUMPS: Readonly<Record<Of<'jump'>['jump'], SoundAttributes>> = {
  dacapo: { dacapo: 'yes' },
  dalsegno: { dalsegno: 'segno' },
  tocoda: { tocoda: 'coda' },
  fine: { fine: 'yes' },
};

const tempoElement = (tempo: Of<'tempo'>, offset: Ticks, sound: number | undefined): XmlNode => {
  const { perMinute, beat, text, printed } = tempo;
  if (!printed) {
    const moved = offset === 0 ? undefined : leaf('offset', offset);
    return element('sound', { tempo: perMinute }, moved);
  }
  const words = text === undefined ? [] : [leaf('words', text)];
  if (perMinute === undefined) return wrapped(offset, 'above', words, sound ? { tempo: sound } : undefined);
  const equation = element('metronome', {}, typeElements(beat, 'beat-unit'), leaf('per-minute', perMinute));
  return wrapped(offset, 'above', [...words, equation], { tempo: quartersPerMinute(perMinute, beat) });
};

const quartersPerMinute = (perMinute: number, beat: NoteValue): number => perMinute * valueTicks(beat, 1);

/** The dynamics that MusicXML 3.0 has elements for. */
const DYNAMICS = /^(p{1,6}|f{1,6}|mp|mf|sf|sfp|sfpp|fp|rf|rfz|sfz|sffz|fz)$/;

const dynamicElement = (text: string): XmlNode =>
  element('dynamics', {}, DYNAMICS.test(text) ? empty(text) : leaf('other-dynamics', text));

const octaveShiftElement = ({ octaves, end }: Of<'octave-shift'>): XmlNode =>
  element('octave-shift', {
    type: end ? 'stop' : octaves > 0 ? 'down' : 'up',
    size: 7 * Math.abs(octaves) + 1,
  });
