/**
 * The order in which measures are played: repeats, endings, D.C., D.S., coda and Fine followed out.
 *
 * The rules, from common practice:
 * - An end of repeat goes back to the start that belongs to it, inner repeats within outer ones; without
 *   a start, to the end of the repeat before, or to the beginning.
 * - An ending is played on the passes it names. After the last of a group the passage is over; a single
 *   ending with a repeat is left out on the pass that follows.
 * - A jump happens when no repeat at the same bar line is due any more, once. After it repeats are not
 *   made again and of endings the last is played; Fine and "to coda" hold only then.
 * - Jumps, Fine and "to coda" act at the end of the measure in which they stand.
 */
import { type Diagnostic, Refusal } from './diagnostic.ts';
import type { Direction } from './model/direction.ts';
import type { Tune, TuneMeasure } from './tune.ts';

/** The measures in the order in which they are played. */
export interface PlayOrder {
  /** Indices into the tune's measures. */
  readonly measures: readonly number[];
  /** A warning for each jump that leads nowhere. */
  readonly diagnostics: readonly Diagnostic[];
}

/** A passage under repetition: where it starts and on which pass it is. */
interface Passage {
  start: number;
  pass: number;
  /** False for one that starts where no start of a repeat stands; at the bottom of the stack. */
  marked: boolean;
}

/** Endings that follow each other directly. */
interface EndingGroup {
  readonly from: number;
  /** Included. */
  readonly to: number;
  /** The pass after which the passage is over. */
  readonly passes: number;
}

/** More measures than this are no tune, but a slip or an attack. */
const MOST_MEASURES = 200_000;

const beginning = (start: number): Passage => ({ start, pass: 1, marked: false });

/** Throws a Refusal where the repeats would not come to an end in practice. */
export const playOrder = (tune: Tune): PlayOrder => {
  const { measures } = tune;
  const endings = endingNumbers(measures);
  const groups = endingGroups(measures, endings);
  const order: number[] = [];
  const jumped = new Set<number>();
  let passages: Passage[] = [beginning(0)];
  const close = (next: number): void => {
    if (passages.length > 1) passages.pop();
    if (passages.length === 1) passages = [beginning(next)];
  };
  let i = 0;
  while (i < measures.length) {
    const measure = measures[i]!;
    const group = groups[i];
    const repeats = jumped.size === 0;
    const opened = passages.at(-1)!.marked && passages.at(-1)!.start === i;
    if (repeats && measure.left.repeat && !opened) passages.push({ start: i, pass: 1, marked: true });
    const passage = passages.at(-1)!;
    const played = endings[i]?.includes(repeats ? passage.pass : group!.passes) ?? true;
    if (played && order.push(i) > MOST_MEASURES) throw tooLong(measure);
    const passes = group?.passes ?? measure.right.times;
    if (played && repeats && measure.right.repeat && passage.pass < passes) {
      passage.pass += 1;
      i = passage.start;
      continue;
    }
    if (repeats && (group ? i === group.to : measure.right.repeat)) close(i + 1);
    i = played ? jumpFrom(measures, i, jumped) : i + 1;
  }
  return { measures: order, diagnostics: measures.flatMap(lostJumps) };
};

/**
 * The measures to which ends of repeats go back, by the same rules: an index for each measure, of use where one
 * ends.
 */
export const repeatStarts = ({ measures }: Pick<Tune, 'measures'>): readonly number[] => {
  const groups = endingGroups(measures, endingNumbers(measures));
  let open: readonly number[] = [];
  let free = 0;
  return measures.map(({ left, right }, index) => {
    if (left.repeat) open = [...open, index];
    const start = open.at(-1) ?? free;
    const group = groups[index];
    if (group ? index === group.to : right.repeat) {
      open = open.slice(0, -1);
      if (open.length === 0) free = index + 1;
    }
    return start;
  });
};

type Endings = readonly (readonly number[] | undefined)[];

/** The passes on which each measure is played; undefined outside endings. */
const endingNumbers = (measures: readonly TuneMeasure[]): Endings => {
  let open: readonly number[] | undefined;
  return measures.map(({ left, right }) => {
    open = left.ending?.numbers ?? open;
    const here = open;
    if (right.ending) open = undefined;
    return here && here.length > 0 ? here : undefined;
  });
};

/** The group of each measure that lies in an ending. */
const endingGroups = (
  measures: readonly TuneMeasure[],
  endings: Endings,
): readonly (EndingGroup | undefined)[] => {
  const groups: (EndingGroup | undefined)[] = measures.map(() => undefined);
  for (let from = 0; from < measures.length; from++) {
    if (!endings[from]) continue;
    let to = from;
    while (endings[to + 1] && !measures[to + 1]!.left.repeat && !startsOver(measures, endings, from, to + 1))
      to++;
    const last = Math.max(...endings.slice(from, to + 1).flatMap(numbers => numbers!));
    // Repeats from its very last ending: what comes after it is one pass more.
    const single = !measures.slice(from, to + 1).some((measure, n) => n > 0 && measure.left.ending);
    const group = { from, to, passes: single && measures[to]!.right.repeat ? last + 1 : last };
    groups.fill(group, from, to + 1);
    from = to;
  }
  return groups;
};

/** Whether an ending at `index` names a pass that the group has had: it belongs to the next passage. */
const startsOver = (
  measures: readonly TuneMeasure[],
  endings: Endings,
  from: number,
  index: number,
): boolean => {
  const begins = measures[index]!.left.ending;
  return (
    begins !== undefined && endings.slice(from, index).some(had => had!.includes(begins.numbers[0] ?? 0))
  );
};

/**
 * The measure to which the marks at a measure's end lead: the next one, one past the last for Fine. Jumps
 * that happen are added to `jumped`.
 */
const jumpFrom = (measures: readonly TuneMeasure[], index: number, jumped: Set<number>): number => {
  const marks = marksAt(measures[index]!);
  if (jumped.size > 0) {
    if (marks.has('fine')) return measures.length;
    const coda = marks.has('tocoda') ? codaAfter(measures, index) : undefined;
    if (coda !== undefined) return coda;
  }
  const target = marks.has('dacapo') ? 0 : marks.has('dalsegno') ? segnoBefore(measures, index) : undefined;
  if (target === undefined || jumped.has(index)) return index + 1;
  jumped.add(index);
  return target;
};

const marksAt = ({ directions }: TuneMeasure) =>
  new Set(directions.flatMap(each => (each.kind === 'jump' ? [each.jump] : [])));

type Sign = (Direction & { readonly kind: 'sign' })['sign'];

/** The measures of a sign, by index; at the end of a measure it stands for the measure that follows. */
export const signsAt = (measures: readonly TuneMeasure[], sign: Sign): readonly number[] =>
  measures.flatMap(({ directions, length }, index) =>
    directions.flatMap(each =>
      each.kind === 'sign' && each.sign === sign ? [each.at >= length && length > 0 ? index + 1 : index] : [],
    ),
  );

/** The last coda after the way out: a sign that stands at the way out itself is not meant. */
const codaAfter = (measures: readonly TuneMeasure[], index: number): number | undefined =>
  signsAt(measures, 'coda').findLast(at => at > index);

const segnoBefore = (measures: readonly TuneMeasure[], index: number): number | undefined =>
  signsAt(measures, 'segno').findLast(at => at <= index);

const lostJumps = (measure: TuneMeasure, index: number, measures: readonly TuneMeasure[]): Diagnostic[] => {
  const marks = marksAt(measure);
  const lost = (code: string, message: string): Diagnostic[] => [
    { severity: 'warning', code, message, place: measure.source },
  ];
  if (marks.has('dalsegno') && segnoBefore(measures, index) === undefined) {
    return lost('no-segno', 'D.S. is not followed: there is no segno before it');
  }
  if (marks.has('tocoda') && codaAfter(measures, index) === undefined) {
    return lost('no-coda', 'the way to the coda is not followed: there is no coda after it');
  }
  if (endsAtFine(measure) && !measures.some(each => marksAt(each).has('fine'))) {
    return lost('no-fine', 'the tune is played to its end again: there is no Fine');
  }
  return [];
};

const endsAtFine = ({ directions }: TuneMeasure): boolean =>
  directions.some(each => each.kind === 'jump' && /\bal fine\b/i.test(each.text));

const tooLong = ({ source }: TuneMeasure): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'too-many-repeats',
    message: `with its repeats played out the tune is longer than ${MOST_MEASURES} measures`,
    hint: 'look at how often the repeats are said to be played',
    place: source,
  });
