/** The systems that a tune may be set in: any run of its measures. */
import type { Notation } from '../content/notation.ts';
import { type Bar, endBar, innerBar, startBar } from '../measure/bars.ts';
import type { Column } from '../measure/column.ts';
import { Clearances } from './clearances.ts';
import { addBar, addMeasure, close, type GrowingStrip, startStrip } from './grow.ts';
import type { Node, Strip } from './strip.ts';

/** Everything that breaking needs to know about a tune. */
export interface Measured {
  readonly notation: Notation;
  /** By measure. */
  readonly columns: readonly (readonly Column[])[];
}

/** The system from one measure to another (indices, inclusive). */
export type Systems = (first: number, last: number) => Strip;

/** The systems that begin with a measure: those that were asked for, and the music up to the last of them. */
interface Beginning {
  readonly growing: GrowingStrip;
  readonly strips: Strip[];
}

/** Makes each system when it is first asked for. None depends on the width: several ways of setting a tune share them. */
export function systemsOf({ notation, columns }: Measured): Systems {
  const { measures } = notation.tune;
  const clearances = new Clearances();
  const beginnings: Beginning[] = [];
  const begin = (first: number): Beginning => {
    const bar = startBar(notation, measures[first]!, first === 0);
    return { growing: startStrip(barNode(bar, first, 'start'), clearances), strips: [] };
  };
  return (first, last) => {
    beginnings[first] ??= begin(first);
    const { growing, strips } = beginnings[first];
    for (let index = first + strips.length; index <= last; index++) {
      const [before, measure, next] = [measures[index - 1], measures[index]!, measures[index + 1]];
      if (index > first) addBar(growing, barNode(innerBar(notation, before!, measure), index - 1, 'inner'));
      addMeasure(growing, columns[index]!);
      strips.push(close(growing, barNode(endBar(notation, measure, next), index, 'end')));
    }
    return strips[last - first]!;
  };
}

const barNode = (
  bar: Bar,
  measure: number,
  edge: 'start' | 'inner' | 'end',
): Extract<Node, { kind: 'bar' }> => ({ kind: 'bar', bar, width: bar.width, measure, edge });
