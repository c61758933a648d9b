/**
 * The order of shapes: fullest and easiest first. One table of terms in points, as the cost model of
 * melodies has; what holding costs is measured by its very terms. One point is about the effort of
 * shifting by two frets in mid-neck.
 */
import type { Grip, Touch } from '../../fingering/grip.ts';
import { type Hand, span } from '../../fingering/hand.ts';
import { gripCost } from '../../fingering/model.ts';
import { drawBack } from '../../fingering/terms/draw-back.ts';
import { barre, fingersDown } from '../../fingering/terms/shape.ts';
import { squeeze } from '../../fingering/terms/squeeze.ts';
import { reach, stretch } from '../../fingering/terms/stretch.ts';
import { weakFinger } from '../../fingering/terms/weak-finger.ts';
import { type Chord, pitchClass } from './chord.ts';
import { barresOf, lackingTones, soundsOf, stoppedFrets, type Voicing } from './shape.ts';
import { hasBass } from './tones.ts';
import { silentInside, type Wishes } from './voicings.ts';

/** Everything that a term may ask about. */
export interface Voiced {
  readonly hand: Hand;
  readonly chord: Chord;
  readonly wishes: Wishes;
  readonly frets: Voicing;
  /** MIDI numbers. */
  readonly sounds: readonly number[];
}

interface VoicingTerm {
  readonly name: string;
  readonly unit: string;
  /** Points for each unit. */
  readonly weight: number;
  readonly source: string;
  readonly measure: (voiced: Voiced) => number;
}

interface HeldTerm extends Omit<VoicingTerm, 'measure'> {
  readonly measure: (grip: Grip, hand: Hand, wishes: Wishes) => number;
}

/** A full chord has four voices; more are welcome, fewer are missed. */
const FULL = 4;

/** Up to this fret open strings belong to a shape. */
const LOW_FRETS = 4;

const sounding = (frets: Voicing): number => frets.filter(fret => fret !== undefined).length;

/** So many frets a hand covers without opening. */
const CLOSED_FRETS = 3;

/** Neighbouring stopped strings that have an open one between them. */
const openInside = (frets: Voicing): number => {
  const stopped = frets.flatMap((fret, index) => (fret !== undefined && fret > 0 ? [index] : []));
  return stopped.filter((at, n) => n > 0 && frets.slice(stopped[n - 1]! + 1, at).includes(0)).length;
};

const VOICING_TERMS: readonly VoicingTerm[] = [
  {
    name: 'tone left out',
    unit: 'tones',
    weight: 1.2,
    source: 'fullest first; weight: our judgement',
    measure: ({ chord, sounds }) => lackingTones(chord, sounds).length,
  },
  {
    name: 'voice missed',
    unit: 'strings',
    weight: 2,
    source: 'on four strings all sound, common practice; weight: our judgement',
    measure: ({ frets }) => Math.max(0, Math.min(FULL, frets.length) - sounding(frets)),
  },
  {
    name: 'silent string',
    unit: 'strings',
    weight: 0.45,
    source: 'fullest first; outer strings of a guitar may be silent, common practice; weight: our judgement',
    measure: ({ frets }) => frets.length - sounding(frets),
  },
  {
    name: 'silent string between others',
    unit: 'strings',
    weight: 1.5,
    source: 'an inner string has to be damped by a leaning finger, common practice; weight: our judgement',
    measure: ({ frets }) => silentInside(frets),
  },
  {
    name: 'silent highest string',
    unit: 'strings',
    weight: 1.2,
    source: 'the melody of a chord is heard on top, common practice; weight: our judgement',
    measure: ({ frets }) => frets.findIndex(fret => fret !== undefined),
  },
  {
    name: 'another note in the bass',
    unit: 'times',
    weight: 3.5,
    source:
      'root position is plainest where strings descend to a bass, common practice; weight: our judgement',
    measure: ({ chord, hand, sounds }) =>
      hasBass(hand.instrument) && Math.min(...sounds) % 12 !== pitchClass(chord.bass ?? chord.root) ? 1 : 0,
  },
  {
    name: 'slash bass not lowest',
    unit: 'times',
    weight: 0.8,
    source: 'the note after the slash is the bass where it can be, common practice; weight: our judgement',
    measure: ({ chord, sounds }) =>
      chord.bass && Math.min(...sounds) % 12 !== pitchClass(chord.bass) ? 1 : 0,
  },
  {
    name: 'fourth at the bottom',
    unit: 'times',
    weight: 0.8,
    source: 'the upper note of a fourth sounds like the root, common practice; weight: our judgement',
    measure: ({ chord, hand, sounds }) => {
      if (chord.bass || !hasBass(hand.instrument)) return 0;
      const [lowest, next] = [...sounds].sort((a, b) => a - b);
      return next !== undefined && next - lowest! === 5 ? 1 : 0;
    },
  },
  {
    name: 'open string up the neck',
    unit: 'strings',
    weight: 0.6,
    source: 'open strings sound unlike stopped neighbours far up; weight: our judgement',
    measure: ({ frets }) =>
      Math.max(...frets.map(fret => fret ?? 0)) > LOW_FRETS ? frets.filter(fret => fret === 0).length : 0,
  },
  {
    name: 'open string between stopped ones',
    unit: 'times',
    weight: 0.6,
    source: 'the fingers beside it have to arch, common practice; weight: our judgement',
    measure: ({ frets }) => openInside(frets),
  },
  {
    name: 'frets up the neck',
    unit: 'mm',
    weight: 0.008,
    source: 'low positions are learnt first, common practice; weight: our judgement',
    measure: ({ frets, hand, wishes: { near } }) => {
      const stopped = stoppedFrets(frets);
      return near === undefined && stopped.length > 0 ? span(hand, 1, Math.min(...stopped)) : 0;
    },
  },
  {
    name: 'frets beyond three',
    unit: 'frets, each counted as often as its place among them',
    weight: 0.2,
    source: 'shapes lie within three frets where they can, common practice; weight: our judgement',
    measure: ({ frets }) => {
      const stopped = stoppedFrets(frets);
      const beyond = Math.max(0, Math.max(...stopped) - Math.min(...stopped) + 1 - CLOSED_FRETS);
      return (beyond * (beyond + 1)) / 2;
    },
  },
  {
    name: 'reach',
    unit: 'mm',
    weight: 0.018,
    source: 'fingers close together are easier (Heijink & Meulenbroek 2002); weight: our judgement',
    measure: ({ frets, hand }) => {
      const stopped = stoppedFrets(frets);
      return stopped.length > 0 ? span(hand, Math.min(...stopped), Math.max(...stopped)) : 0;
    },
  },
];

/**
 * What holding a shape costs: the grip terms of the cost model that speak of a held chord, some with
 * other weights, since fingers that stand together in one fret are the rule in chords.
 */
const HOLDING = {
  gripTerms: [
    reach,
    stretch,
    drawBack,
    weakFinger,
    { ...squeeze, weight: 0.1 },
    { ...fingersDown, weight: 0.15 },
    { ...barre, weight: 0.5 },
  ],
  handTerms: [],
  fingerTerms: [],
};

const fingersOf = (touches: readonly Touch[]): ReadonlySet<number> =>
  new Set(touches.map(({ finger }) => finger).filter(finger => finger > 0));

/**
 * Whether index and middle finger crowd side by side into one fret, below a finger on the next string towards the
 * ceiling: there the index finger lies flat with less trouble.
 */
const crowded = (touches: readonly Touch[]): boolean => {
  const at = (finger: number) => touches.filter(each => each.finger === finger);
  const [[index], [middle]] = [at(1), at(2)];
  if (!index || !middle || middle.fret !== index.fret || middle.string !== index.string - 1) return false;
  return touches.some(({ string, fret }) => string === index.string + 1 && fret > index.fret);
};

/** Terms of a held grip that depend on what was wished for. */
const HELD_TERMS: readonly HeldTerm[] = [
  {
    name: 'height on the neck',
    unit: 'mm',
    weight: 0.012,
    source: 'low positions are learnt first, common practice; weight: our judgement',
    measure: ({ position }, { fretAt }, { near }) =>
      near === undefined ? fretAt[position]! - fretAt[1]! : 0,
  },
  {
    name: 'away from the fret asked for',
    unit: 'mm',
    weight: 0.05,
    source: 'our judgement',
    measure: ({ position }, hand, { near }) => (near === undefined ? 0 : span(hand, near, position)),
  },
  {
    name: 'barre of another finger than the index',
    unit: 'times',
    weight: 0.7,
    source: 'the index finger lies flat by itself, common practice; weight: our judgement',
    measure: ({ touches }) => barresOf(touches).filter(({ finger }) => finger > 1).length,
  },
  {
    name: 'lower note beside a barre, towards the floor',
    unit: 'times',
    weight: 0.5,
    source:
      'the rest of the finger lies over those strings and has to arch, common practice; weight: our judgement',
    measure: ({ touches }) =>
      barresOf(touches).filter(({ fret, to }) => touches.some(each => each.string < to && each.fret < fret))
        .length,
  },
  {
    name: 'two fingers crowded where one could lie flat',
    unit: 'times',
    weight: 0.15,
    source: 'Gm7 on the ukulele, Dm7 on the guitar: common practice; weight: our judgement',
    measure: ({ touches }) => (crowded(touches) ? 1 : 0),
  },
  {
    name: 'all four fingers down',
    unit: 'times',
    weight: 0.3,
    source: 'our judgement',
    measure: ({ touches }) => (fingersOf(touches).size === 4 ? 1 : 0),
  },
  {
    name: 'index finger idle',
    unit: 'times',
    weight: 0.4,
    source:
      'a barre, or a shape of several fingers, is set from the index finger on, common practice; weight: our judgement',
    measure: ({ touches }) =>
      touches.filter(({ finger }) => finger > 0).length > 1 && !fingersOf(touches).has(1) ? 1 : 0,
  },
];

/** Thousandths of a point, an exact integer. */
export const voicingCost = (voiced: Voiced): number => {
  let cost = 0;
  for (const { weight, measure } of VOICING_TERMS) cost += Math.round(1000 * weight * measure(voiced));
  return cost;
};

/** The same for how it is held. */
export const holdingCost = (hand: Hand, grip: Grip, wishes: Wishes): number => {
  let cost = gripCost(HOLDING, grip, hand);
  for (const { weight, measure } of HELD_TERMS)
    cost += Math.round(1000 * weight * measure(grip, hand, wishes));
  return cost;
};

/** What the terms ask about a voicing. */
export const voice = (hand: Hand, chord: Chord, wishes: Wishes, frets: Voicing): Voiced => ({
  hand,
  chord,
  wishes,
  frets,
  sounds: soundsOf(hand, frets),
});
