/** `<duration>` → ticks; and the division in which every duration of a score is a whole number of them. */
import { Refusal } from '../../score/diagnostic.ts';
import type { Ticks } from '../../score/model/duration.ts';
import { lcm } from '../../score/time.ts';
import { refuseAt, type Walk } from '../draft.ts';
import type { RawMeasure, RawPart } from '../parts.ts';
import { child, childText, innermost, type XmlElement } from '../xml/element.ts';

/** Finer than this, sums over a long score would no longer be exact. */
const FINEST = 2 ** 32;

/** In quarter notes. Nothing in music is longer, and gaps are filled with rests one by one. */
const LONGEST = 4096;

/** Denominators that a fractional duration may have, as in 0.5 or 1.333. */
const LARGEST_DENOMINATOR = 1000;

/** The least common division of a score: the lcm of all `<divisions>` and what fractions need. */
export const commonDivision = (parts: readonly RawPart[]): Ticks => {
  let division = 1;
  for (const part of parts) {
    let divisions = 1;
    for (const measure of part.measures) {
      for (const node of measure.content) {
        if (node.nodeName === 'attributes') divisions = Number(childText(node, 'divisions') ?? divisions);
        const factor = neededFactor(node, divisions);
        if (factor === 1 || division % factor === 0) continue;
        division = lcm(division, factor);
        if (division > FINEST) throw tooFine(part, measure, innermost(node, 'divisions', 'duration'));
      }
    }
  }
  return division;
};

/** What the division must be a multiple of for the sake of one element. */
const neededFactor = (node: XmlElement, divisions: number): number => {
  switch (node.nodeName) {
    case 'attributes':
      return node.children.reduce(
        (factor, each) => (each.nodeName === 'time' ? lcm(factor, beatFactor(each)) : factor),
        isDivision(divisions) ? divisions : 1,
      );
    case 'note':
    case 'backup':
    case 'forward': {
      const duration = child(node, 'duration')?.textContent;
      return duration?.includes('.') === true ? divisions * denominator(Number(duration)) : 1;
    }
    default:
      return 1;
  }
};

/** Beats shorter than a quarter must be whole numbers of ticks. */
const beatFactor = (time: XmlElement): number => {
  const types = time.children
    .filter(each => each.nodeName === 'beat-type')
    .map(each => Number(each.textContent));
  return types.filter(isBeatType).reduce((factor, type) => lcm(factor, lcm(type, 4) / 4), 1);
};

/** Beats are counted in notes from the whole to the 1024th. */
export const isBeatType = (type: number): boolean => Number.isInteger(type) && type > 0 && type <= 1024;

const isDivision = (divisions: number): boolean => Number.isInteger(divisions) && divisions > 0;

const denominator = (value: number): number => {
  for (let d = 1; d <= LARGEST_DENOMINATOR; d += 1) {
    if (Math.abs(value * d - Math.round(value * d)) < 1e-4) return d;
  }
  return 1;
};

/** The ticks of a note, backup or forward; refused where they are not a positive number. To move by nothing is no harm. */
export const durationTicks = (walk: Walk, node: XmlElement, duration: number | undefined): Ticks => {
  if (duration === 0 && node.nodeName !== 'note') return 0;
  if (duration === undefined || !(duration > 0) || duration > LONGEST * walk.divisions) {
    throw refuseAt(walk, innermost(node, 'duration'), {
      code: 'bad-duration',
      message: `the duration of a <${node.nodeName}> is ${duration ?? 'missing'}; it must be positive, and no longer than ${LONGEST} quarter notes`,
      hint: 'mend the duration in the file, or export the tune again',
    });
  }
  return Math.round((duration * walk.division) / walk.divisions);
};

/** Ticks of an `<offset>` before or after the moment at which an element stands. */
export const offsetTicks = (walk: Walk, offset: string | number | undefined): Ticks => {
  const value = Number(offset ?? 0);
  return Number.isFinite(value) ? Math.round((value * walk.division) / walk.divisions) : 0;
};

/** Sets the divisions in force. */
export const setDivisions = (walk: Walk, node: XmlElement, divisions: number): void => {
  if (!isDivision(divisions)) {
    throw refuseAt(walk, innermost(node, 'divisions'), {
      code: 'bad-divisions',
      message: 'a quarter note is divided into a number of divisions that is not a positive whole one',
      hint: 'mend <divisions> in the file, or export the tune again',
    });
  }
  walk.divisions = divisions;
  walk.isDivided = true;
};

const tooFine = (part: RawPart, measure: RawMeasure, node: XmlElement): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'too-fine-divisions',
    message: 'the durations of the score have no common measure that can be counted exactly',
    hint: 'export the tune again, or only the part with the melody',
    place: { line: node.line, part: part.id, measure: measure.number },
  });
