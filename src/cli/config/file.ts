/**
 * The configuration file: options by their long names, for all tunes, and under `tunes` for single ones.
 *
 *     frets: 4-8
 *     instrument: [ukulele, ukulele-low-g]
 *     tunes:
 *       carols/coventry-carol:
 *         frets: 5-9
 *
 * Values are checked as if they had been typed. Paths are meant from the file's own folder.
 */
import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { isMap, isScalar, isSeq, LineCounter, type Pair, parseDocument, type YAMLMap } from 'yaml';
import { type Diagnostic, Refusal } from '../../score/diagnostic.ts';
import { nearest } from '../nearest.ts';
import { BATCH_ROWS, LIMIT_ROWS } from '../options/batch.ts';
import { check, OPTIONS, type OptionName, type OptionRow } from '../options/options.ts';
import { type Config, longName, type Setting, type Settings } from './settings.ts';

/** Options that make no sense in a file: those for one run. */
const FOR_ONE_RUN: ReadonlySet<string> = new Set(
  Object.keys(BATCH_ROWS).filter(name => name !== 'jobs' && !(name in LIMIT_ROWS)),
);
/** Options that hold for a whole run, and not for a tune of it. */
const FOR_A_RUN: ReadonlySet<OptionName> = new Set(['out', 'jobs', 'quiet', 'color']);
/** Options that name files. */
const PATHS: ReadonlySet<OptionName> = new Set(['out', 'font']);

const TUNES = 'tunes';

/** Reads a file for a command that takes these options. Throws a Refusal that lists all that is wrong in it. */
export const readConfig = (path: string, names: readonly OptionName[]): Config => {
  const text = contentOf(path);
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false });
  const faults: Diagnostic[] = [];
  const faultAt: FaultAt = (offset, code, message, hint) => {
    const { line, col } = lines.linePos(offset);
    const excerpt = text.split('\n')[line - 1]?.trim();
    faults.push({
      severity: 'error',
      code,
      message,
      ...(hint !== undefined && { hint }),
      place: { file: path, line, column: col },
      ...(excerpt && { excerpt }),
    });
  };
  for (const error of document.errors) {
    faultAt(
      error.pos[0],
      'config-broken',
      `this is not YAML (${error.message})`,
      'see the example in fretward config --help',
    );
  }
  const allowed = names.filter(name => !FOR_ONE_RUN.has(name));
  const reader: Reader = { path, lineOf: offset => lines.linePos(offset).line, faultAt };
  const config = document.errors.length === 0 ? configIn(document.contents, allowed, reader) : undefined;
  if (faults.length > 0) throw new Refusal(...faults);
  return { path, general: {}, tunes: new Map(), ...config };
};

type FaultAt = (offset: number, code: string, message: string, hint?: string) => void;

interface Reader {
  readonly path: string;
  readonly lineOf: (offset: number) => number;
  readonly faultAt: FaultAt;
}

const configIn = (contents: unknown, allowed: readonly OptionName[], reader: Reader): Partial<Config> => {
  if (contents === null) return {};
  if (!isMap(contents)) {
    reader.faultAt(
      0,
      'config-broken',
      'the file is not a list of options',
      'write lines such as "frets: 4-8"',
    );
    return {};
  }
  const pairs = contents.items as readonly Pair[];
  const tunes = pairs.find(({ key }) => isScalar(key) && key.value === TUNES);
  return {
    general: settingsIn(
      pairs.filter(pair => pair !== tunes),
      allowed,
      [TUNES],
      reader,
    ),
    tunes: tunes
      ? tunesIn(
          tunes,
          allowed.filter(name => !FOR_A_RUN.has(name)),
          reader,
        )
      : new Map(),
  };
};

const tunesIn = ({ key, value }: Pair, allowed: readonly OptionName[], reader: Reader): Config['tunes'] => {
  if (!isMap(value)) {
    reader.faultAt(
      startOf(key),
      'config-bad-value',
      '"tunes" names no tunes',
      'write a line for each tune, and its options below it',
    );
    return new Map();
  }
  return new Map(
    (value as YAMLMap).items.map(pair => {
      const name = String(isScalar(pair.key) ? pair.key.value : pair.key);
      if (isMap(pair.value)) return [name, settingsIn(pair.value.items as Pair[], allowed, [], reader)];
      reader.faultAt(
        startOf(pair.key),
        'config-bad-value',
        `"${name}" has no options`,
        'write its options below it, indented: "frets: 5-9"',
      );
      return [name, {}];
    }),
  );
};

/** Reads options; `others` are keys that are right there and no options. */
const settingsIn = (
  pairs: readonly Pair[],
  allowed: readonly OptionName[],
  others: readonly string[],
  reader: Reader,
): Settings => {
  const byKey = new Map(allowed.map(name => [longName(name), name]));
  return Object.fromEntries(
    pairs.flatMap(pair => {
      const key = String(isScalar(pair.key) ? pair.key.value : pair.key);
      const name = byKey.get(key);
      if (name) {
        const setting = settingIn(name, key, pair, reader);
        return setting ? [[name, setting]] : [];
      }
      const meant = nearest(key, [...byKey.keys(), ...others]);
      reader.faultAt(
        startOf(pair.key),
        'config-unknown-option',
        `there is no option "${key}" here`,
        meant ? `is "${meant}" meant?` : `there are ${[...byKey.keys(), ...others].join(', ')}`,
      );
      return [];
    }),
  );
};

/** Reads an option's value; a flag that is false is as good as none. */
const settingIn = (name: OptionName, key: string, pair: Pair, reader: Reader): Setting | undefined => {
  const row: OptionRow = OPTIONS[name];
  const typed = typedValue(pair.value, row);
  const reasons = typed === undefined ? 'write a value after the colon' : check(name, typed).reasons;
  if (reasons !== undefined) {
    reader.faultAt(
      startOf(pair.value ?? pair.key),
      'config-bad-value',
      `"${key}" does not take this`,
      reasons,
    );
    return undefined;
  }
  if (typed === false && name !== 'color') return undefined;
  return {
    typed: fromFolder(name, typed, dirname(reader.path)),
    origin: { kind: 'file', path: reader.path, line: reader.lineOf(startOf(pair.key)) },
  };
};

/** A value as it would be typed: a flag, a text, or for options that take several a list of texts. */
const typedValue = (node: unknown, row: OptionRow): unknown => {
  if (isSeq(node)) return row.list ? node.items.map(textOf) : undefined;
  if (!isScalar(node) || node.value === null) return undefined;
  if (!row.flags.includes('<')) return node.value;
  return row.list
    ? textOf(node)
        .split(',')
        .map(each => each.trim())
    : textOf(node);
};

/** As it stands in the file, so that 4-8 and 007 are what they look like. */
const textOf = (node: unknown): string =>
  isScalar(node)
    ? typeof node.value === 'string'
      ? node.value
      : (node.source ?? String(node.value))
    : String(node);

const fromFolder = (name: OptionName, typed: unknown, folder: string): unknown => {
  if (PATHS.has(name) && typed !== '-') return resolve(folder, String(typed));
  if (name !== 'instrument') return typed;
  return (typed as readonly string[]).map(each => (each.endsWith('.json') ? resolve(folder, each) : each));
};

const startOf = (node: unknown): number =>
  (node as { readonly range?: readonly number[] | null } | null)?.range?.[0] ?? 0;

const contentOf = (path: string): string => {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new Refusal({
      severity: 'error',
      code: 'config-unreadable',
      message:
        code === 'ENOENT' ? 'there is no such file' : `the file cannot be read (${code ?? 'unknown cause'})`,
      hint: 'check the path after --config',
      place: { file: path },
    });
  }
};
