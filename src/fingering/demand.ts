/** What the rules demand of each strike: the window in force there, and what is fixed of its notes. */
import type { Place } from '../instrument/instrument.ts';
import { placeName, placesOf } from '../instrument/places.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import { groupBy } from '../score/groups.ts';
import { measureRanges, momentName, momentNames } from '../score/moments.ts';
import { shortList } from '../score/numbers.ts';
import { midi, pitchName } from '../score/pitch.ts';
import type { FretWindow } from './arrangement.ts';
import type { Hand } from './hand.ts';
import { type Pin, type Rules, windowsIn } from './rules.ts';
import { listSpots, placeOf, spotOf } from './spots.ts';
import type { Strike } from './strikes.ts';

/** What is fixed of a note's string, fret and finger; undefined is free. */
export interface Fixed {
  readonly string: number | undefined;
  readonly fret: number | undefined;
  readonly finger: number | undefined;
}

/** What is demanded of one strike. */
export interface Demand {
  /** MIDI numbers, from the lowest up; all the rest is in the same order. */
  readonly sounds: readonly number[];
  readonly window: FretWindow | undefined;
  readonly fixed: readonly (Fixed | undefined)[];
  /** Where another edition plays the notes, to be agreed with if possible. */
  readonly targets: readonly (Place | undefined)[];
}

/** The places of another edition, by head id. */
export type Targets = ReadonlyMap<number, Place>;

/**
 * The demands on all strikes; equal demands are one and the same object. Throws a Refusal that names every
 * chosen or marked place that does not sound its note, or contradicts another, once for all its notes, and
 * every pin that finds no note.
 */
export const demandsOf = (
  hand: Hand,
  strikes: readonly Strike[],
  rules: Rules,
  targets: Targets | undefined,
): readonly Demand[] => {
  const faults: Fault[] = [];
  const windows = windowsIn(
    rules,
    strikes.map(({ source }) => source.measure),
  );
  const known = new Map<string, Demand>();
  const demands = strikes.map((strike, k): Demand => {
    const fixed = strike.sounds.map((_, index) => fixedFor(hand, strike, index, rules, faults));
    const there = strike.heads.map(head => placeOnly(targets?.get(head)));
    const demand: Demand = { sounds: strike.sounds, window: windows[k], fixed, targets: there };
    const key = JSON.stringify(demand);
    const equal = known.get(key) ?? demand;
    known.set(key, equal);
    return equal;
  });
  const wrong = [...pinFaults(hand, strikes, rules.pins), ...placeFaults(hand, faults)];
  if (wrong.length > 0) throw new Refusal(...wrong);
  return demands;
};

const placeOnly = (place: Place | undefined): Place | undefined =>
  place && { string: place.string, fret: place.fret };

/** What pins and marks fix of one note; what is wrong with them is added to the faults. */
const fixedFor = (
  hand: Hand,
  strike: Strike,
  index: number,
  rules: Rules,
  faults: Fault[],
): Fixed | undefined => {
  const pins = rules.pins.filter(pin => pinApplies(pin, strike, index));
  const [pin] = pins;
  const mark = rules.keepMarked ? strike.marked[index]! : undefined;
  const fixed: Fixed = {
    string: pin?.place.string ?? mark?.string,
    fret: pin?.place.fret ?? mark?.fret,
    finger: mark?.finger,
  };
  if (fixed.string === undefined && fixed.fret === undefined && fixed.finger === undefined) return undefined;
  const contrary = pins.find(
    ({ place }) => place.string !== pin!.place.string || place.fret !== pin!.place.fret,
  );
  if (contrary) {
    faults.push({
      strike,
      index,
      what: `is to be played on ${placeName(pin!.place)} and on ${placeName(contrary.place)}`,
    });
  } else if (!placesOf(hand.instrument, strike.sounds[index]!).some(place => agrees(place, fixed))) {
    faults.push({
      strike,
      index,
      what: `does not sound ${describeFixed(fixed)} of ${hand.instrument.name}`,
    });
  }
  return fixed;
};

/** Whether a place, and a finger if one is named, are as fixed. A fixed finger says whether the string is open. */
export const agrees = (place: Place & { readonly finger?: number }, fixed: Fixed | undefined): boolean =>
  fixed === undefined ||
  ((fixed.string ?? place.string) === place.string &&
    (fixed.fret ?? place.fret) === place.fret &&
    (fixed.finger === undefined ||
      (place.finger === undefined
        ? (fixed.finger === 0) === (place.fret === 0)
        : fixed.finger === place.finger)));

const pinApplies = (pin: Pin, strike: Strike, index: number): boolean => {
  if (pin.kind === 'pitch') return pin.sound === strike.sounds[index];
  const here = pin.measure === strike.source.measure && Math.abs(pin.beat - strike.beat) < 0.01;
  return here && index === strike.sounds.length - 1;
};

/** Pins for a beat at which no note is struck, or for a pitch that the tune does not have. */
const pinFaults = (hand: Hand, strikes: readonly Strike[], pins: readonly Pin[]): Diagnostic[] =>
  pins
    .filter(pin => !strikes.some(strike => strike.sounds.some((_, index) => pinApplies(pin, strike, index))))
    .map(pin => ({
      severity: 'error',
      code: 'no-note-to-place',
      message:
        pin.kind === 'pitch'
          ? `there is no ${pin.name} to be placed on ${placeName(pin.place)} of ${hand.instrument.name}`
          : `no note is struck in ${momentName(pin)}`,
      hint: pin.kind === 'pitch' ? notesThereAre(strikes) : beatsThereAre(strikes, pin.measure),
    }));

const notesThereAre = (strikes: readonly Strike[]): string => {
  const pitches = new Map(strikes.flatMap(({ pitches }) => pitches.map(each => [midi(each), each] as const)));
  const upwards = [...pitches].sort(([a], [b]) => a - b).map(([, pitch]) => pitchName(pitch));
  return `the notes are ${shortList(upwards)}`;
};

const beatsThereAre = (strikes: readonly Strike[], measure: string): string => {
  const here = strikes.filter(({ source }) => source.measure === measure);
  if (here.length > 0)
    return `notes are struck in ${momentNames(here.map(strike => placeOf(spotOf(strike))))}`;
  return `notes are struck in ${measureRanges([...new Set(strikes.map(({ source }) => source.measure))])}`;
};

/** A note that cannot lie where it is to lie. */
interface Fault {
  readonly strike: Strike;
  readonly index: number;
  /** "does not sound on string 2 fret 6 of Ukulele, high G" */
  readonly what: string;
}

/** One error for all notes that are wrong in one way, with the places that the pitch has. */
const placeFaults = (hand: Hand, faults: readonly Fault[]): readonly Diagnostic[] =>
  groupBy(faults, ({ strike, index, what }) => `${pitchName(strike.pitches[index]!)} ${what}`).map(group => {
    const [{ strike, index, what }] = group;
    const spots = group.map(fault => spotOf(fault.strike, fault.index));
    const name = pitchName(strike.pitches[index]!);
    const places = placesOf(hand.instrument, strike.sounds[index]!).map(placeName);
    return {
      severity: 'error',
      code: 'impossible-place',
      message: `${name} ${what}${spots.length > 1 ? `: ${listSpots(spots)}` : ''}`,
      hint: `${name} lies on ${places.join(', ')}; choose or mark one of them`,
      place: placeOf(spotOf(strike, index)),
    };
  });

/** "on string 2 with finger 3", "as an open string". */
const describeFixed = ({ string, fret, finger }: Fixed): string => {
  const half = string !== undefined ? `string ${string}` : fret !== undefined && `fret ${fret}`;
  const place = string !== undefined && fret !== undefined ? placeName({ string, fret }) : half;
  const how = finger === 0 ? 'as an open string' : finger !== undefined && `with finger ${finger}`;
  return [place && `on ${place}`, how].filter(Boolean).join(' ');
};
