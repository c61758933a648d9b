/**
 * From a chord symbol as it is typed to the chord symbol of the score model: `F#m7b5`, `Bb9`, `C/G`.
 * What the letters after the root mean is asked of tonal; what it does not know is read as a chord that
 * it knows with degrees after it (`Cm` + `add11`).
 */
import { ChordType } from 'tonal';
import { Refusal } from '../../score/diagnostic.ts';
import type { ChordDegree, ChordNote, ChordSymbol } from '../../score/model/chord-symbol.ts';
import { stepNamed } from '../../score/pitch.ts';
import { isForeign } from '../foreign.ts';
import { intervalsOf, plainSize, type Size, sizeOf } from './chord.ts';
import { KINDS } from './kinds.ts';

const SOURCE = { line: 1, part: '', measure: '' };

const SYMBOL = /^([A-Ga-g])(##|bb|[#bx]?)(.*?)(?:\/([A-Ga-g])(##|bb|[#bx]?))?$/u;

const ALTERS: Readonly<Record<string, number>> = { '': 0, '#': 1, b: -1, '##': 2, x: 2, bb: -2 };

/** Whether a text reads as a chord symbol. */
export const isChordSymbol = (text: string): boolean => read(text) !== undefined;

/** Reads a chord symbol. Throws a Refusal that shows how they are written. */
export const parseChordSymbol = (text: string): ChordSymbol => {
  const symbol = read(text);
  if (symbol) return symbol;
  const capital = text.slice(0, 1).toUpperCase() + text.slice(1);
  const meant = isChordSymbol(capital) ? `is ${capital} meant? ` : '';
  throw new Refusal({
    severity: 'error',
    code: 'unknown-chord',
    message: `"${text}" is not a chord symbol that can be read`,
    hint: `${meant}write the root as a capital letter, then the kind: G, Am7, Bb9, F#m7b5, Dsus4, Cmaj7, Edim7, C/G`,
  });
};

const read = (typed: string): ChordSymbol | undefined => {
  const plain = typed.trim().replaceAll('♯', '#').replaceAll('♭', 'b').replaceAll('−', '-');
  const match = SYMBOL.exec(plain);
  if (!match) return undefined;
  const [, letter, sign, kindText, bassLetter, bassSign] = match;
  // A small letter reads as a root only alone or before a plain kind: "a" is A, "ab" stays unclear.
  if (letter! !== letter!.toUpperCase()) return undefined;
  const sizes = sizesOf(kindText!.replace(/[()\s,]/g, ''));
  if (!sizes) return undefined;
  return {
    at: 0,
    root: noteOf(letter!, sign!),
    ...nearestKind(sizes),
    text: kindText!,
    bass: bassLetter === undefined ? undefined : noteOf(bassLetter, bassSign!),
    source: SOURCE,
  };
};

const noteOf = (letter: string, sign: string): ChordNote => ({
  step: stepNamed(letter)!,
  alter: ALTERS[sign]!,
});

/** Spellings of the trade that tonal does not list. */
const ALSO: ReadonlyMap<string, string> = new Map([
  ['maj11', KINDS['major-11th']!.intervals],
  ['M11', KINDS['major-11th']!.intervals],
  ['ø7', KINDS['half-diminished']!.intervals],
  ['mmaj7', KINDS['major-minor']!.intervals],
  ['alt', '1P 3M 5A 7m 9A'],
]);

const typeOf = (name: string): readonly Size[] | undefined => {
  const also = ALSO.get(name);
  if (also !== undefined) return also.split(' ').map(sizeOf);
  if (isForeign(name)) return undefined;
  const { empty, intervals } = ChordType.get(name === '' ? 'M' : name);
  return empty ? undefined : intervals.map(sizeOf);
};

/** `add11`, `no5`, `b9`, `#11`, `sus2` at the end of a symbol. */
const DEGREE = /(add|omit|no|sus)?([b#]?)(2|4|5|6|7|9|11|13|3)$/;

const sizesOf = (name: string): readonly Size[] | undefined => {
  const known = typeOf(name);
  if (known) return known;
  const match = DEGREE.exec(name);
  if (!match) return undefined;
  const [all, word, sign, number] = match;
  if (word === undefined && sign === '') return undefined;
  const base = sizesOf(name.slice(0, name.length - all.length));
  return base && changed(base, word, ALTERS[sign!]!, Number(number));
};

const changed = (
  base: readonly Size[],
  word: string | undefined,
  alter: number,
  degree: number,
): readonly Size[] => {
  if (word === 'no' || word === 'omit') return base.filter(each => each.degree !== degree);
  const size = { degree, semitones: plainSize(degree) + alter };
  // What was altered before stays beside it: a dominant with both ♯9 and ♭9.
  const replaced = [plainSize(degree), size.semitones];
  const rest = base.filter(
    each =>
      !(word === 'sus' && each.degree === 3) &&
      (each.degree !== degree || !replaced.includes(each.semitones)),
  );
  return [...rest, size].sort((a, b) => a.degree - b.degree || a.semitones - b.semitones);
};

/** The kind of MusicXML that needs the fewest degrees beside it, and those degrees. */
const nearestKind = (sizes: readonly Size[]): Pick<ChordSymbol, 'kind' | 'degrees'> => {
  let best: Pick<ChordSymbol, 'kind' | 'degrees'> = { kind: 'other', degrees: degreesBetween([], sizes) };
  let least = Infinity;
  for (const kind of NAMEABLE) {
    const degrees = degreesBetween(intervalsOf(kind), sizes);
    const distance = degrees.reduce((sum, { type }) => sum + DISTANCE[type], 0);
    if (distance < least) [best, least] = [{ kind, degrees }, distance];
  }
  return best;
};

/** Kinds that a symbol typed by hand may mean: functional sixths cannot be told by their notes. */
const NAMEABLE = Object.keys(KINDS).filter(kind => !/^[A-Z]|^(other|pedal)$/.test(kind));

/** Adding is said more readily than altering, and that than leaving out: Cadd9, C7(♭9), C7(no3). */
const DISTANCE: Readonly<Record<ChordDegree['type'], number>> = { add: 2, alter: 3, subtract: 5 };

const degreesBetween = (from: readonly Size[], to: readonly Size[]): readonly ChordDegree[] => {
  const same = (a: Size, b: Size) => a.degree === b.degree && a.semitones === b.semitones;
  const lost = from.filter(size => !to.some(each => same(each, size)));
  const gained = to.filter(size => !from.some(each => same(each, size)));
  // One degree becomes one other; a second of its number is added.
  const altered = gained.map(({ degree }, index) =>
    index === gained.findIndex(each => each.degree === degree)
      ? lost.find(each => each.degree === degree)
      : undefined,
  );
  return [
    ...gained.map((size, index): ChordDegree => {
      const old = altered[index];
      return old
        ? { value: size.degree, alter: size.semitones - old.semitones, type: 'alter' }
        : { value: size.degree, alter: size.semitones - plainSize(size.degree), type: 'add' };
    }),
    ...lost
      .filter(size => !altered.includes(size))
      .map(({ degree }): ChordDegree => ({ value: degree, alter: 0, type: 'subtract' })),
  ];
};
