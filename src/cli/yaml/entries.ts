/** A YAML text whose keys and values know where they stand, so that what is wrong with them can be shown. */
import { isAlias, isMap, isScalar, isSeq, LineCounter, type Pair, parseDocument, type YAMLError } from 'yaml';
import { type Diagnostic, type DiagnosticPlace, Refusal } from '../../score/diagnostic.ts';
import type { Kind } from './kind.ts';

/** A key with its value as it would be typed on a command line. */
export interface Entry {
  readonly key: string;
  /** Text, true or false, or a list of texts; undefined for what is none of them. */
  readonly value: string | boolean | readonly string[] | undefined;
  /** Of a value that is a map written out; undefined for others. */
  readonly entries: readonly Entry[] | undefined;
  readonly keyAt: DiagnosticPlace;
  readonly valueAt: DiagnosticPlace;
  /** Where the texts of a list stand; empty for other values. */
  readonly itemsAt: readonly DiagnosticPlace[];
}

/**
 * The entries of the map that a file is; none of an empty one. Numbers stay as they are written, so that
 * 4-8 and 007 are what they look like. Throws a Refusal where it is not YAML, or no map.
 */
export const entriesOf = (text: string, file: string, kind: Kind): readonly Entry[] => {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false });
  const placeOf = (offset: number): DiagnosticPlace => {
    const { line, col } = lines.linePos(offset);
    return { file, line, column: col };
  };
  if (document.errors.length > 0) {
    throw refusalIn(
      text,
      document.errors.map(each => notYaml(each, placeOf(each.pos[0]), kind)),
    );
  }
  const entriesIn = (pairs: readonly Pair[]): readonly Entry[] =>
    pairs.map(({ key, value }) => {
      const node = isAlias(value) ? value.resolve(document) : value;
      return {
        key: String(isScalar(key) ? key.value : key),
        value: valueIn(node),
        // A map behind an alias may hold itself.
        entries: isMap(value) ? entriesIn(value.items as Pair[]) : undefined,
        keyAt: placeOf(startOf(key)),
        valueAt: placeOf(startOf(value ?? key)),
        itemsAt: isSeq(node) ? node.items.map(item => placeOf(startOf(item))) : [],
      };
    });
  const { contents } = document;
  if (contents === null) return [];
  if (!isMap(contents)) throw refusalIn(text, [noMap(placeOf(startOf(contents)), kind)]);
  return entriesIn(contents.items as Pair[]);
};

/** All that is wrong in a file, each with the line it is about. */
export const refusalIn = (text: string, faults: readonly Diagnostic[]): Refusal => {
  const lines = text.split('\n');
  return new Refusal(
    ...faults.map(each => {
      const excerpt = lines[(each.place?.line ?? 0) - 1]?.trim();
      return excerpt ? { ...each, excerpt } : each;
    }),
  );
};

const valueIn = (node: unknown): Entry['value'] => {
  if (isSeq(node)) {
    const texts = node.items.map(textOf);
    return texts.every(each => each !== undefined) ? texts : undefined;
  }
  if (isScalar(node) && typeof node.value === 'boolean') return node.value;
  return textOf(node);
};

const textOf = (node: unknown): string | undefined => {
  if (!isScalar(node) || node.value === null) return undefined;
  return typeof node.value === 'string' ? node.value : (node.source ?? String(node.value));
};

const startOf = (node: unknown): number =>
  (node as { readonly range?: readonly number[] | null } | null)?.range?.[0] ?? 0;

const notYaml = ({ code, message }: YAMLError, place: DiagnosticPlace, kind: Kind): Diagnostic => ({
  severity: 'error',
  code: kind.broken,
  ...(code === 'DUPLICATE_KEY'
    ? { message: 'this key stands here a second time', hint: 'leave one of the two out' }
    : {
        message: `this is not YAML: ${message.split('\n')[0]}`,
        hint: `a line is a key, a colon, a blank and a value; ${kind.example}`,
      }),
  place,
});

const noMap = (place: DiagnosticPlace, kind: Kind): Diagnostic => ({
  severity: 'error',
  code: kind.broken,
  message: 'these are no keys and values',
  hint: `a line is a key, a colon, a blank and a value; ${kind.example}`,
  place,
});
