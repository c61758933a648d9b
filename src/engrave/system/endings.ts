/** The brackets over endings, with their numbers. */
import type { TuneMeasure } from '../../score/tune.ts';
import { endingLabel } from '../content/ending-label.ts';
import type { Mark } from '../drawing/mark.ts';
import { richText } from '../measure/rich-text.ts';
import { STYLE } from '../style.ts';
import { measureSpan, type PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

interface Bracket {
  readonly measure: number;
  readonly left: number;
  readonly right: number;
  readonly text: string;
  readonly starts: boolean;
  readonly closes: boolean;
}

/** The brackets of endings, in pieces where they run over from another system. */
function endingBrackets(system: PlacedSystem): Bracket[] {
  const { measures } = system.notation.tune;
  const found: Bracket[] = [];
  let open: { from: number; text: string; starts: boolean } | undefined = endingBefore(
    measures,
    system.line.first,
  );
  for (let index = system.line.first; index <= system.line.last; index++) {
    const { left, right } = measures[index]!;
    if (left.ending) open = { from: index, text: endingLabel(left.ending), starts: true };
    if (!open) continue;
    const stop = right.ending ?? (measures[index + 1]?.left.ending ? { close: 'open' as const } : undefined);
    if (!stop && index < system.line.last) continue;
    const span = measureSpan(system, index);
    found.push({
      measure: open.from,
      left: measureSpan(system, Math.max(open.from, system.line.first)).left + (open.starts ? 0.1 : 0),
      right: stop || index < system.line.last ? span.right - 0.1 : system.width,
      text: open.text,
      starts: open.starts,
      closes: stop?.close === 'closed',
    });
    open = undefined;
  }
  return found;
}

/** An ending that has begun before this system and goes on in it. */
function endingBefore(measures: readonly TuneMeasure[], first: number) {
  for (let index = first - 1; index >= 0; index--) {
    if (measures[index]!.right.ending) return undefined;
    const ending = measures[index]!.left.ending;
    if (ending) return { from: first, text: endingLabel(ending), starts: false };
  }
  return undefined;
}

export function drawEndings(system: PlacedSystem, sketch: Sketch): void {
  const brackets = endingBrackets(system);
  if (brackets.length === 0) return;
  const depth = 1.9;
  const y = Math.min(-2.6, ...brackets.map(({ left, right }) => sketch.above(left, right, 0) - 0.4 - depth));
  const line = (x1: number, y1: number, x2: number, y2: number): Mark => ({
    kind: 'line',
    role: 'ending',
    x1,
    y1,
    x2,
    y2,
    thickness: STYLE.bracket,
  });
  const half = STYLE.bracket / 2;
  for (const { measure, left, right, text, starts, closes } of brackets) {
    const words = richText(
      text,
      { role: 'ending', face: 'serifBold', size: STYLE.smallSize * 1.15 },
      left + 0.5,
      y + 1.55,
    );
    sketch.add(measure, [
      line(left - half, y, right + half, y),
      ...(starts ? [line(left, y, left, y + depth), ...words.marks] : []),
      ...(closes ? [line(right, y, right, y + depth)] : []),
    ]);
  }
}
