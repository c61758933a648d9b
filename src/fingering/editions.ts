/** Several editions of one tune: the key they share, and how far their places agree. */
import type { Instrument } from '../instrument/instrument.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import { momentsInShort } from '../score/moments.ts';
import { movedName } from '../score/names.ts';
import { counted } from '../score/numbers.ts';
import { type KeyAsked, moveTo } from '../score/transpose-to-key.ts';
import { transposeTune } from '../score/transpose-tune.ts';
import type { Tune } from '../score/tune.ts';
import { type Arranged, arrange } from './arrange.ts';
import type { Arrangement } from './arrangement.ts';
import { alike, countedDifferences, differencesBetween, wayOf } from './differences.ts';
import type { Rules } from './rules.ts';
import { TRANSPOSITIONS } from './survey.ts';

/** The editions of one tune, all in one key. */
export interface Editions {
  /** The tune in the key that all editions are in. */
  readonly tune: Tune;
  /** Those that can be made, in the order asked for. */
  readonly editions: readonly Arranged[];
  readonly refused: readonly RefusedEdition[];
  /** About the editions together; each has diagnostics of its own. */
  readonly diagnostics: readonly Diagnostic[];
}

/** An edition that cannot be made, and why. */
export interface RefusedEdition {
  readonly instrument: Instrument;
  readonly diagnostics: readonly Diagnostic[];
}

/** What editions there are to be. */
export interface EditionsAsked {
  readonly instruments: readonly Instrument[];
  readonly rules: Rules;
  /** Semitones, a key, or `best`: the key in which most notes fit, at least effort. */
  readonly transpose: number | KeyAsked | 'best';
  /** Later editions play as many notes as can be where the first one does. */
  readonly match: boolean;
}

/** Arranges a tune for all instruments that can play it. Throws a Refusal where none of them can. */
export const arrangeEditions = (tune: Tune, asked: EditionsAsked): Editions => {
  const { moved, said } = inKey(tune, asked);
  const diagnostics = [...said];
  const editions: Arranged[] = [];
  const refused: RefusedEdition[] = [];
  for (const instrument of asked.instruments) {
    const first = asked.match ? editions[0] : undefined;
    const targets = first?.arrangement.placements;
    const edition = unlessRefused(() => arrange(moved, instrument, asked.rules, targets, asked.instruments));
    if (edition instanceof Refusal) {
      refused.push({ instrument, diagnostics: edition.diagnostics });
      continue;
    }
    if (!first) {
      editions.push(edition);
      continue;
    }
    const differences = differencesOf(edition.arrangement, first.arrangement);
    const matched = { instrument: first.arrangement.instrument, differences };
    editions.push({ ...edition, arrangement: { ...edition.arrangement, matched } });
    diagnostics.push(differenceNote(edition, first));
  }
  if (editions.length === 0) throw new Refusal(...allRefused(refused));
  return { tune: moved, editions, refused, diagnostics };
};

/** The tune in the key that is asked for, and what is to be said of it. */
const inKey = (tune: Tune, asked: EditionsAsked): { moved: Tune; said: readonly Diagnostic[] } => {
  const { transpose } = asked;
  if (transpose !== 'best') return { moved: transposeTune(tune, moveTo(transpose, tune)), said: [] };
  const semitones = bestTransposition(tune, asked);
  return { moved: transposeTune(tune, semitones), said: [keyNote(semitones)] };
};

const unlessRefused = <T>(make: () => T): T | Refusal => {
  try {
    return make();
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
};

/** What several editions say, each its own; what all say in the same words is said once. */
const allRefused = (refused: readonly RefusedEdition[]): readonly Diagnostic[] => {
  const isCommon = ({ message }: Diagnostic): boolean =>
    refused.every(({ diagnostics }) => diagnostics.some(each => each.message === message));
  const common = refused[0]?.diagnostics.filter(isCommon) ?? [];
  const own = refused.flatMap(({ instrument, diagnostics }) =>
    diagnostics.filter(each => !isCommon(each)).map(each => ofEdition(each, instrument.id)),
  );
  return [...common, ...own];
};

/** Where several editions are made at once, each says which one it speaks of. */
export const ofEdition = (diagnostic: Diagnostic, id: string): Diagnostic => ({
  ...diagnostic,
  message: `${id}: ${diagnostic.message}`,
});

/** What is said of editions that are left out while others are made. */
export const leftOut = (refused: readonly RefusedEdition[]): readonly Diagnostic[] =>
  refused.flatMap(({ instrument, diagnostics }) =>
    diagnostics.map(each => ({ ...each, message: `${instrument.id} is left out: ${each.message}` })),
  );

/** More sharps or flats than this are no help to a learner: our judgement. */
const READABLE = 3;

/**
 * Fewest notes outside the window, then a key that learners read, then least cost, then the nearest,
 * upwards first; all editions together. Where no key will do, the key as it is gives the reason.
 */
const bestTransposition = (tune: Tune, { instruments, rules }: EditionsAsked): number => {
  const nearestFirst = [...TRANSPOSITIONS].sort((a, b) => Math.abs(a) - Math.abs(b) || b - a);
  const tried = nearestFirst.flatMap(semitones => {
    const moved = transposeTune(tune, semitones);
    const found = tryKey(moved, instruments, { ...rules, repeats: 'free' });
    const unreadable = Math.abs(moved.measures[0]?.key.fifths ?? 0) > READABLE ? 1 : 0;
    return found ? [{ ...found, semitones, unreadable }] : [];
  });
  tried.sort((a, b) => a.misfits - b.misfits || a.unreadable - b.unreadable || a.cost - b.cost);
  return tried[0]?.semitones ?? 0;
};

const tryKey = (tune: Tune, instruments: readonly Instrument[], rules: Rules) => {
  const all = unlessRefused(() => instruments.map(each => arrange(tune, each, rules).arrangement));
  if (all instanceof Refusal) return undefined;
  return {
    misfits: all.reduce((sum, { misfits }) => sum + misfits.length, 0),
    cost: all.reduce((sum, { cost }) => sum + cost, 0),
  };
};

const keyNote = (semitones: number): Diagnostic => ({
  severity: 'note',
  code: 'best-key',
  message:
    semitones === 0
      ? 'no other key fits better'
      : `most notes fit, at least effort, when the tune is moved ${movedName(semitones)}`,
});

/** Heads of struck and held notes that lie elsewhere than in the other edition. */
const differencesOf = (edition: Arrangement, other: Arrangement): ReadonlySet<number> => {
  const heads = [...edition.placements].filter(([head, { string, fret }]) => {
    const there = other.placements.get(head);
    return there?.string !== string || there.fret !== fret;
  });
  return new Set(heads.map(([head]) => head));
};

/** More ways to part than this are counted. */
const MOST_WAYS = 6;

const differenceNote = (edition: Arranged, first: Arranged): Diagnostic => {
  const differences = differencesBetween(edition.problem.strikes, edition.arrangement, first.arrangement);
  const ways = alike(differences).map(group => `${wayOf(group[0])} (${momentsInShort(group)})`);
  const left = ways.length > MOST_WAYS ? [`and ${counted(ways.length - MOST_WAYS, 'more way')}`] : [];
  const count = countedDifferences(differences.length, first.arrangement.instrument.id);
  return {
    severity: 'note',
    code: 'editions-differ',
    message: [count, [...ways.slice(0, MOST_WAYS), ...left].join('; ')].filter(Boolean).join(': '),
  };
};
