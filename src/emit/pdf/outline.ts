/** Outlines of music glyphs as PDF path operators (ISO 32000-1, 8.5.2). */

type Point = readonly [x: number, y: number];

const round = (value: number): number => Math.round(value * 10000) / 10000 || 0;
const spelled = (...points: readonly Point[]): string => points.flat().map(round).join(' ');

/** A point on the way from one to another. */
const between = (from: Point, to: Point, part: number): Point => [
  from[0] + (to[0] - from[0]) * part,
  from[1] + (to[1] - from[1]) * part,
];

const COMMAND = /([MLQCZ])([^MLQCZ]*)/g;

function pointsIn(text: string): readonly Point[] {
  const values = (text.match(/-?[\d.]+/g) ?? []).map(Number);
  return Array.from({ length: values.length / 2 }, (_, i) => [values[2 * i]!, values[2 * i + 1]!] as const);
}

/**
 * Rewrites SVG path data of the commands M, L, Q, C and Z as a filled PDF path. PDF has no quadratic
 * curves: their degree is raised.
 */
export function filledPath(data: string): string {
  let at: Point = [0, 0];
  let written = '';
  for (const [, command, text] of data.matchAll(COMMAND)) {
    const points = pointsIn(text!);
    const end = points.at(-1) ?? at;
    if (command === 'Z') written += 'h ';
    else if (command === 'M') written += `${spelled(end)} m `;
    else if (command === 'L') written += `${spelled(end)} l `;
    else if (command === 'C') written += `${spelled(...points)} c `;
    else {
      const control = points[0]!;
      written += `${spelled(between(at, control, 2 / 3), between(end, control, 2 / 3), end)} c `;
    }
    at = end;
  }
  return `${written}f`;
}
