/** `<direction>` and `<sound>`: words, tempo, signs, jumps, rehearsal marks, dynamics, octave shifts. */
import { type DirectionType, OctaveShiftType, type Direction as XmlDirection } from 'musicxml-interfaces';
import type { Source } from '../../score/diagnostic.ts';
import type { Direction } from '../../score/model/direction.ts';
import { sourceOf, type Walk } from '../draft.ts';
import { attribute, child, childText, type XmlElement } from '../xml/element.ts';
import { startRepeat } from './barline.ts';
import { offsetTicks } from './duration.ts';
import { JUMPS, jumpInSound, jumpInWords } from './jump.ts';
import { printedTempo, soundingTempo } from './tempo.ts';

/** What every direction from one element has in common. */
interface Base {
  readonly at: number;
  readonly staff?: number;
  readonly source: Source;
}

/** Takes what a direction says into the measure; what is not kept is counted. */
export const readDirection = (walk: Walk, node: XmlElement, data: XmlDirection): void => {
  const sound = child(node, 'sound');
  const offset = offsetTicks(walk, data.offset?.data) || offsetTicks(walk, data.sound?.offset?.data);
  const base: Base = {
    at: Math.max(0, walk.now + offset),
    ...(data.staff !== undefined && data.staff > 1 ? { staff: data.staff } : {}),
    source: sourceOf(walk, node),
  };
  const types = data.directionTypes ?? [];
  const list = walk.measure.directions;
  for (const type of types) {
    for (const mark of marksOf(base, type)) list.push(mark);
    for (const [name, what] of LEFT_OUT) {
      if (type[name] !== undefined) walk.omissions.add(what, base.source);
    }
  }
  if (sound) takeImpliedRepeat(walk, sound);
  const words = wordsOf(types);
  const jump = jumpInSound(sound) ?? jumpInWords(words);
  if (jump !== undefined) list.push({ ...base, kind: 'jump', jump, text: words || JUMPS[jump].text });
  const tempo = printedTempo(types, jump === undefined ? words : '', sound);
  if (!tempo.readable) walk.omissions.add('tempo relations', base.source);
  list.push(...tempo.marks.map(mark => ({ ...base, ...mark })));
  if (words !== '' && jump === undefined && !tempo.usesWords) {
    const placement = attribute(node, 'placement') === 'below' ? 'below' : 'above';
    list.push({ ...base, kind: 'words', text: words, placement });
  }
};

/** A `<sound>` of its own in a measure, with nothing printed. */
export const readSound = (walk: Walk, node: XmlElement): void => {
  takeImpliedRepeat(walk, node);
  const offset = offsetTicks(walk, childText(node, 'offset'));
  const base: Base = { at: Math.max(0, walk.now + offset), source: sourceOf(walk, node) };
  const tempo = soundingTempo(node);
  if (tempo !== undefined) walk.measure.directions.push({ ...base, ...tempo });
  const jump = jumpInSound(node);
  if (jump === undefined) return;
  walk.measure.directions.push({ ...base, kind: 'jump', jump, text: JUMPS[jump].text });
};

/** A repeat that starts here, or with the next measure, though no bar line says so (MusicXML 4.0, sound). */
const takeImpliedRepeat = (walk: Walk, sound: XmlElement): void => {
  if (attribute(sound, 'forward-repeat') === 'yes') startRepeat(walk, walk.now === 0 ? 'here' : 'next');
};

const LEFT_OUT: readonly (readonly [keyof DirectionType, string])[] = [
  ['wedge', 'hairpins'],
  ['dashes', 'dashed lines and brackets'],
  ['bracket', 'dashed lines and brackets'],
  ['pedal', 'pedal marks'],
  ['harpPedals', 'pedal marks'],
  ['percussions', 'percussion pictograms'],
  ['principalVoice', 'voice marks'],
  ['accordionRegistration', 'accordion registrations'],
  ['eyeglasses', 'pictures and signs'],
  ['image', 'pictures and signs'],
  ['otherDirection', 'other directions'],
  ['scordatura', 'scordaturas'],
  ['stringMute', 'mutes and damping signs'],
  ['damp', 'mutes and damping signs'],
  ['dampAll', 'mutes and damping signs'],
];

const wordsOf = (types: readonly DirectionType[]): string =>
  types
    .flatMap(type => type.words ?? [])
    .map(each => each.data)
    .join(' ')
    .replace(/\s+/g, ' ')
    .trim();

const marksOf = (base: Base, type: DirectionType): readonly Direction[] => [
  ...(type.segnos ?? []).map(() => ({ ...base, kind: 'sign', sign: 'segno' }) as const),
  ...(type.codas ?? []).map(() => ({ ...base, kind: 'sign', sign: 'coda' }) as const),
  ...(type.rehearsals ?? []).map(each => ({ ...base, kind: 'rehearsal', text: each.data }) as const),
  ...(type.dynamics === undefined
    ? []
    : [{ ...base, kind: 'dynamic', text: dynamicText(type.dynamics) } as const]),
  ...octaveShift(base, type),
];

/** The library has a flag for each dynamic there is: `{mf: true}`. */
const dynamicText = (dynamics: NonNullable<DirectionType['dynamics']>): string =>
  dynamics.otherDynamics ??
  Object.entries(dynamics)
    .filter(([name, value]) => value === true && /^[fmprsz]+$/.test(name))
    .map(([name]) => name)
    .join('');

/** Octaves by the `size` of an octave shift; another size means nothing. */
const OCTAVES: ReadonlyMap<number, number> = new Map([
  [8, 1],
  [15, 2],
  [22, 3],
]);

/** 8va (notes are written an octave below their sound, type "down") counts as one octave up. */
const octaveShift = (base: Base, type: DirectionType): readonly Direction[] => {
  const shift = type.octaveShift;
  if (shift === undefined || shift.type === OctaveShiftType.Continue) return [];
  const octaves = OCTAVES.get(shift.size || 8);
  if (octaves === undefined) return [];
  const direction = shift.type === OctaveShiftType.Up ? -1 : 1;
  return [
    { ...base, kind: 'octave-shift', octaves: octaves * direction, end: shift.type === OctaveShiftType.Stop },
  ];
};
