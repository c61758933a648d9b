/** The brackets over endings, with their numbers. */
import type { Ending } from '../../score/model/barline.ts';
import type { TuneMeasure } from '../../score/tune.ts';
import { endingLabel } from '../content/ending-label.ts';
import { richText } from '../measure/rich-text.ts';
import { STYLE } from '../style.ts';
import { bracketMarks } from './bracket.ts';
import { measureSpan, type PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

/** What a system holds of an ending: it may come from the system before, and go on in the next one. */
interface Piece {
  /** Indices of measures, inclusive. */
  readonly first: number;
  readonly last: number;
  readonly ending: Ending;
  readonly starts: boolean;
  /** How it ends here, if it does. */
  readonly close: Ending['close'] | undefined;
}

function piecesIn({ line, notation }: PlacedSystem): Piece[] {
  const { measures } = notation.tune;
  const indices = Array.from({ length: line.last - line.first + 1 }, (_, i) => line.first + i);
  return indices.flatMap((first): Piece[] => {
    const own = measures[first]!.left.ending;
    const ending = own ?? (first === line.first ? endingBefore(measures, first) : undefined);
    if (!ending) return [];
    const last = indices.find(index => index >= first && closeAt(measures, index)) ?? line.last;
    return [{ first, last, ending, starts: own !== undefined, close: closeAt(measures, last) }];
  });
}

/** How an ending ends after a measure: where the next one begins, if nothing else says so. */
const closeAt = (measures: readonly TuneMeasure[], index: number): Ending['close'] | undefined =>
  measures[index]!.right.ending?.close ?? (measures[index + 1]?.left.ending && 'open');

/** An ending that has begun before a measure and goes on in it. */
function endingBefore(measures: readonly TuneMeasure[], index: number): Ending | undefined {
  const edge = measures.slice(0, index).findLast(({ left, right }) => left.ending ?? right.ending);
  return edge?.right.ending ? undefined : edge?.left.ending;
}

/** From the bar line to a bracket; and from the hook of one bracket to the next one. */
const INSET = 0.1;
const APART = 0.9;
const DEPTH = 1.9;

export function drawEndings(system: PlacedSystem, sketch: Sketch): void {
  const pieces = piecesIn(system);
  const lefts = pieces.map(({ first, starts }) => measureSpan(system, first).left + (starts ? INSET : 0));
  const rights = pieces.map(({ last, close }, i) =>
    close
      ? Math.min(measureSpan(system, last).right - INSET, (lefts[i + 1] ?? Infinity) - APART)
      : system.width,
  );
  const tops = pieces.map((_, i) => sketch.above(lefts[i]!, rights[i]!, 0) - 0.4 - DEPTH);
  const y = Math.min(-2.6, ...tops);
  pieces.forEach(({ first, ending, starts, close }, i) => {
    const left = lefts[i]!;
    const style = { role: 'ending', face: 'serifBold', size: STYLE.smallSize * 1.15 } as const;
    sketch.add(first, [
      ...bracketMarks({
        role: 'ending',
        left,
        right: rights[i]!,
        y,
        hooks: { left: starts ? DEPTH : 0, right: close === 'closed' ? DEPTH : 0 },
      }),
      ...(starts ? richText(endingLabel(ending), style, left + 0.5, y + 1.55).marks : []),
    ]);
  });
}
