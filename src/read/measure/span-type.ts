/** Spans that are left out (hairpins, pedal lines, slides, …) are counted where they start. */
import { attribute, type XmlElement } from '../xml/element.ts';

const NO_STARTS: ReadonlySet<string | undefined> = new Set([
  ...['stop', 'continue', 'change', 'discontinue', 'resume'],
]);

/** Whether an element only ends or carries on what another one starts. */
export const isEndOfSpan = (node: XmlElement): boolean => NO_STARTS.has(attribute(node, 'type'));
