/**
 * A pack: all that a lesson hands out, as data, for every edition. Everything in it is made of one
 * arrangement of the tune for each edition, so that nothing in the pack contradicts anything else.
 */
import type { Arranged } from '../../fingering/arrange.ts';
import type { Arrangement } from '../../fingering/arrangement.ts';
import { arrangeEditions, type EditionsAsked, leftOut, ofEdition } from '../../fingering/editions.ts';
import type { Instrument } from '../../instrument/instrument.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import type { Tune } from '../../score/tune.ts';
import { placesOfTune } from '../regions.ts';
import { differencesInWords, missingInWords } from './differences.ts';
import { type Content, type Lesson, MAKERS, type PartsAsked } from './make.ts';
import { PART_NAMES, PARTS, type PartName } from './parts.ts';
import type { Block } from './prose.ts';

/** What the lesson says of itself. */
export interface PackWords {
  /** What the lesson is called. */
  readonly lesson: string;
  /** Whose lesson it is: a class, a club. */
  readonly group: string | undefined;
  /** To the student. */
  readonly notes: readonly Block[];
}

/** What a pack is to hold. */
export interface PackAsked extends EditionsAsked {
  readonly words: PackWords;
  /** In any order: a pack has its own. */
  readonly parts: readonly PartName[];
  /** What the parts are asked to be. */
  readonly details: PartsAsked;
}

/** One thing to hand out: a warm-up, a quiz, a chord chart. */
export interface Part {
  readonly name: PartName;
  readonly title: string;
  /** In the order of its pages. */
  readonly contents: readonly Content[];
}

/** All parts for one instrument. */
export interface Edition {
  readonly arrangement: Arrangement;
  readonly parts: readonly Part[];
  /** What lies elsewhere than in the other editions, in words; empty where there are none. */
  readonly differences: readonly Block[];
  /** What arranging it had to say. */
  readonly said: readonly Diagnostic[];
}

/** All that a lesson hands out. */
export interface Pack {
  readonly words: PackWords;
  /** In the key it is played in. */
  readonly tune: Tune;
  readonly editions: readonly Edition[];
  /** Editions that were asked for and cannot be made. */
  readonly missing: readonly MissingEdition[];
}

/** An edition that was asked for and cannot be made. */
export interface MissingEdition {
  readonly instrument: Instrument;
  /** Why there are no sheets, in words. */
  readonly reasons: readonly Block[];
}

/** A pack, and what making it had to say. */
export interface MadePack {
  readonly pack: Pack;
  /** The tune, for each edition. */
  readonly arranged: readonly Arranged[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Makes the pack of a tune. Throws a Refusal where no edition, or a part of one, cannot be made. */
export const makePack = (read: Tune, asked: PackAsked): MadePack => {
  const { tune, editions: arranged, refused, diagnostics: together } = arrangeEditions(read, asked);
  const lesson: Lesson = {
    tune,
    arranged,
    instruments: arranged.map(({ arrangement }) => arrangement.instrument),
    rules: asked.rules,
    match: asked.match,
    ...placesOfTune(
      tune,
      arranged.map(({ arrangement }) => arrangement),
      asked.rules,
    ),
  };
  const parts = PART_NAMES.filter(name => asked.parts.includes(name)).map(name => ({
    name,
    made: MAKERS[name](lesson, asked.details),
  }));
  const missing = refused.map(
    (each): MissingEdition => ({ instrument: each.instrument, reasons: missingInWords(each) }),
  );
  const all = arranged.map(({ arrangement }) => arrangement);
  const editions = all.map((arrangement, index): Edition => {
    // The first is what the others are made after.
    const others = index === 0 ? all.slice(1) : all.slice(0, 1);
    return {
      arrangement,
      parts: parts.flatMap(({ name, made }) => {
        const contents = made.contents[index]!;
        return contents.length > 0 ? [{ name, title: PARTS[name].title, contents }] : [];
      }),
      differences: others.flatMap(other => differencesInWords(tune, arrangement, other)),
      said: [...together, ...arranged[index]!.diagnostics],
    };
  });
  const several = asked.instruments.length > 1;
  return {
    pack: { words: asked.words, tune, editions, missing },
    arranged,
    diagnostics: [
      ...together,
      ...leftOut(refused),
      ...arranged.flatMap(({ arrangement, diagnostics }) =>
        several ? diagnostics.map(each => ofEdition(each, arrangement.instrument.id)) : diagnostics,
      ),
      ...parts.flatMap(({ made }) => made.diagnostics),
    ],
  };
};
