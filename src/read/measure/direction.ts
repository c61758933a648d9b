/**
 * `<direction>` and `<sound>`: words, tempo, signs, jumps, rehearsal marks, dynamics, octave shifts. Read
 * from the tree alone: the library gives up on some tempos, and knows nothing that is new in MusicXML 4.0.
 */
import type { Source } from '../../score/diagnostic.ts';
import type { Direction } from '../../score/model/direction.ts';
import { sourceOf, type Walk } from '../draft.ts';
import { attribute, child, childText, type XmlElement } from '../xml/element.ts';
import { startRepeat } from './barline.ts';
import { offsetTicks } from './duration.ts';
import { JUMPS, jumpInSound, jumpInWords } from './jump.ts';
import { readSigns, SIGNS, signsInWords, signText, withoutSigns, withSignNames } from './sign.ts';
import { isEndOfSpan } from './span-type.ts';
import { printedTempo, soundingTempo } from './tempo.ts';

/** What every direction from one element has in common. */
interface Base {
  readonly at: number;
  readonly staff?: number;
  readonly source: Source;
}

/** Takes what a direction says into the measure; what is not kept is counted. */
export const readDirection = (walk: Walk, node: XmlElement): void => {
  const sound = child(node, 'sound');
  const staff = Number(childText(node, 'staff'));
  const offset =
    offsetTicks(walk, childText(node, 'offset')) || offsetTicks(walk, sound && childText(sound, 'offset'));
  const base: Base = {
    at: Math.max(0, walk.now + offset),
    ...(staff > 1 ? { staff } : {}),
    source: sourceOf(walk, node),
  };
  const marks = node.children
    .filter(each => each.nodeName === 'direction-type')
    .flatMap(each => each.children);
  for (const mark of marks) {
    walk.measure.directions.push(...marksOf(base, mark));
    const what = leftOut(mark);
    if (what !== undefined) walk.omissions.add(what, base.source);
  }
  if (sound) readPlayback(walk, sound);
  readSigns(walk, base, [...marks.map(mark => mark.nodeName), ...(sound ? signsInSound(sound) : [])]);
  readWords(walk, node, base, marks);
};

/** What the words of a direction are: a jump, a tempo, signs, or words. */
const readWords = (walk: Walk, node: XmlElement, base: Base, marks: readonly XmlElement[]): void => {
  const list = walk.measure.directions;
  const sound = child(node, 'sound');
  const printed = printedWords(marks);
  const named = withSignNames(printed);
  const jump = jumpInSound(sound) ?? jumpInWords(named);
  const words = jump === undefined ? withoutSigns(printed) : '';
  if (jump === undefined) readSigns(walk, base, signsInWords(printed));
  else {
    const text = withoutSigns(printed) === '' ? JUMPS[jump].text : named;
    list.push({ ...base, kind: 'jump', jump, text });
  }
  const tempo = printedTempo(marks, words, sound);
  if (!tempo.readable) walk.omissions.add('tempo relations', base.source);
  list.push(...tempo.marks.map(mark => ({ ...base, ...mark })));
  if (words === '' || tempo.usesWords) return;
  const placement = attribute(node, 'placement') === 'below' ? 'below' : 'above';
  list.push({ ...base, kind: 'words', text: words, placement });
};

/** A `<sound>` of its own in a measure, with nothing printed. */
export const readSound = (walk: Walk, node: XmlElement): void => {
  const offset = offsetTicks(walk, childText(node, 'offset'));
  const base: Base = { at: Math.max(0, walk.now + offset), source: sourceOf(walk, node) };
  readPlayback(walk, node);
  readSigns(walk, base, signsInSound(node));
  const tempo = soundingTempo(node);
  if (tempo !== undefined) walk.measure.directions.push({ ...base, ...tempo });
  const jump = jumpInSound(node);
  if (jump === undefined) return;
  walk.measure.directions.push({ ...base, kind: 'jump', jump, text: JUMPS[jump].text });
};

/** Where a `<sound>` says that jumps lead. */
const signsInSound = (sound: XmlElement): readonly string[] =>
  SIGNS.filter(sign => attribute(sound, sign) !== undefined);

/** What changes how the music is played, with nothing printed. */
const readPlayback = (walk: Walk, sound: XmlElement): void => {
  // A repeat starts here, or with the next measure, though no bar line says so (MusicXML 4.0, sound).
  if (attribute(sound, 'forward-repeat') === 'yes') startRepeat(walk, walk.now === 0 ? 'here' : 'next');
  const swing = child(sound, 'swing');
  if (swing && !child(swing, 'straight')) walk.omissions.add('swung rhythms', sourceOf(walk, sound));
};

/** What is read elsewhere in this file or in those it uses. */
const KEPT: ReadonlySet<string> = new Set([
  ...['segno', 'coda', 'rehearsal', 'dynamics', 'octave-shift', 'words', 'metronome'],
]);

const LEFT_OUT: ReadonlyMap<string, string> = new Map([
  ['wedge', 'hairpins'],
  ['dashes', 'dashed lines and brackets'],
  ['bracket', 'dashed lines and brackets'],
  ['pedal', 'pedal marks'],
  ['harp-pedals', 'pedal marks'],
  ['percussion', 'percussion pictograms'],
  ['principal-voice', 'voice marks'],
  ['accordion-registration', 'accordion registrations'],
  ['eyeglasses', 'pictures and signs'],
  ['image', 'pictures and signs'],
  ['symbol', 'pictures and signs'],
  ['scordatura', 'scordaturas'],
  ['string-mute', 'mutes and damping signs'],
  ['damp', 'mutes and damping signs'],
  ['damp-all', 'mutes and damping signs'],
]);

/** What a mark is that is not kept, once for each span. */
const leftOut = (mark: XmlElement): string | undefined => {
  const isKept = KEPT.has(mark.nodeName) || signsInWords(signText(mark)).length > 0;
  return isKept || isEndOfSpan(mark) ? undefined : (LEFT_OUT.get(mark.nodeName) ?? 'other directions');
};

/** Words and, between them, the signs that MusicXML has as symbols of a music font. */
const printedWords = (marks: readonly XmlElement[]): string =>
  marks
    .map(mark => (mark.nodeName === 'words' ? mark.textContent : signText(mark)))
    .join(' ')
    .replace(/\s+/g, ' ')
    .trim();

const marksOf = (base: Base, mark: XmlElement): readonly Direction[] => {
  const text = mark.textContent.trim();
  switch (mark.nodeName) {
    case 'rehearsal':
      return text === '' ? [] : [{ ...base, kind: 'rehearsal', text }];
    case 'dynamics':
      return dynamicsOf(base, mark);
    case 'octave-shift':
      return octaveShift(base, mark);
    default:
      return [];
  }
};

/** Dynamics are named by their elements: `<mf/>`. */
const dynamicsOf = (base: Base, dynamics: XmlElement): readonly Direction[] => {
  const names = dynamics.children.map(each =>
    each.nodeName === 'other-dynamics' ? each.textContent.trim() : each.nodeName,
  );
  const text = names.join('');
  return text === '' ? [] : [{ ...base, kind: 'dynamic', text }];
};

/** Octaves by the `size` of an octave shift; another size means nothing. */
const OCTAVES: ReadonlyMap<string, number> = new Map([
  ['8', 1],
  ['15', 2],
  ['22', 3],
]);

/** 8va (notes are written an octave below their sound, type "down") counts as one octave up. */
const octaveShift = (base: Base, shift: XmlElement): readonly Direction[] => {
  const type = attribute(shift, 'type');
  const octaves = OCTAVES.get(attribute(shift, 'size') ?? '8');
  if (octaves === undefined || type === 'continue') return [];
  const direction = type === 'up' ? -1 : 1;
  return [{ ...base, kind: 'octave-shift', octaves: octaves * direction, end: type === 'stop' }];
};
