/** A YAML text whose values know where they stand, so that what is wrong with them can be shown. */
import { isAlias, isMap, isScalar, isSeq, LineCounter, type Pair, parseDocument } from 'yaml';
import { type Diagnostic, type Place, Refusal } from '../../score/diagnostic.ts';

/** A key of the file with its value as it would be typed on a command line. */
export interface Entry {
  readonly key: string;
  /** Text, true or false, or a list of texts; undefined for what is none of them. */
  readonly value: string | boolean | readonly string[] | undefined;
  readonly keyAt: Place;
  readonly valueAt: Place;
  /** Where the texts of a list stand; empty for other values. */
  readonly itemsAt: readonly Place[];
}

/**
 * The entries of a map at the top of a file. Numbers stay as they are written, so that 4-8 and 007 are
 * what they look like. Throws a Refusal where it is not YAML, or no map.
 */
export const entriesOf = (text: string, file: string): readonly Entry[] => {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false });
  const placeOf = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { file, line, column: col };
  };
  if (document.errors.length > 0) {
    throw new Refusal(...document.errors.map(each => notYaml(each.message, placeOf(each.pos[0]))));
  }
  const { contents } = document;
  if (!isMap(contents)) throw new Refusal(noMap(placeOf(startOf(contents))));
  return (contents.items as Pair[]).map(({ key, value }) => ({
    key: String(isScalar(key) ? key.value : key),
    value: valueIn(isAlias(value) ? value.resolve(document) : value),
    keyAt: placeOf(startOf(key)),
    valueAt: placeOf(startOf(value ?? key)),
    itemsAt: isSeq(value) ? value.items.map(item => placeOf(startOf(item))) : [],
  }));
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

const notYaml = (message: string, place: Place): Diagnostic => ({
  severity: 'error',
  code: 'lesson-broken',
  message: `this is not YAML: ${message.split('\n')[0]}`,
  hint: 'a line is a key, a colon, a blank and a value; fretward lesson --init writes a file to begin with',
  place,
});

const noMap = (place: Place): Diagnostic => ({
  severity: 'error',
  code: 'lesson-broken',
  message: 'the file says nothing of a lesson',
  hint: 'write lines such as "tune: my-tune.musicxml"; fretward lesson --init writes a file to begin with',
  place,
});
