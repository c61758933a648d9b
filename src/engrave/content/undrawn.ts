/** What a tune holds and its sheets do not show, named once a kind. */
import type { Diagnostic } from '../../score/diagnostic.ts';
import type { TuneMeasure } from '../../score/tune.ts';
import type { Notation } from './notation.ts';

interface Undrawn {
  readonly code: string;
  readonly message: string;
  found(measure: TuneMeasure): boolean;
}

const KINDS: readonly Undrawn[] = [
  {
    code: 'clef-not-drawn',
    message: 'clefs that change are not drawn: the whole tune is set in the clef of its instrument',
    found: measure =>
      measure.changes.some(change => change.clef !== undefined && (measure.index > 0 || change.at > 0)),
  },
];

export function undrawn({ tune }: Notation): Diagnostic[] {
  return KINDS.flatMap(({ code, message, found }) => {
    const first = tune.measures.find(found);
    if (!first) return [];
    return [
      {
        severity: 'warning' as const,
        code,
        message,
        place: { part: tune.part, measure: first.number, line: first.source.line },
      },
    ];
  });
}
