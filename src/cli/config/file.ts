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
import { dirname, isAbsolute, join } from 'node:path';
import { readTextFile } from '../../batch/files.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import { BATCH_NAMES } from '../options/batch.ts';
import { OPTIONS, type OptionName } from '../options/options.ts';
import { isFlag, longName, type OptionRow } from '../options/row.ts';
import { unknownKey, valueFor } from '../yaml/check.ts';
import { type Entry, entriesOf, refusalIn } from '../yaml/entries.ts';
import { CONFIG } from '../yaml/kind.ts';
import type { Config, Setting, Settings } from './settings.ts';

/** Options that make no sense in a file: those for one run. */
const FOR_ONE_RUN: ReadonlySet<OptionName> = new Set(BATCH_NAMES.filter(name => name !== 'jobs'));
/** Options that hold for a whole run, and not for a tune of it. */
const FOR_A_RUN: ReadonlySet<OptionName> = new Set(['out', 'jobs', 'quiet', 'color']);
/** Options that name files. */
const PATHS: ReadonlySet<OptionName> = new Set(['out', 'font']);

const TUNES = 'tunes';

/** Reads a file for a command that takes these options. Throws a Refusal that lists all that is wrong in it. */
export const readConfig = (path: string, names: readonly OptionName[]): Config => {
  const text = readTextFile(path, 'check the path after --config');
  const entries = entriesOf(text, path, CONFIG);
  const allowed = names.filter(name => !FOR_ONE_RUN.has(name));
  const faults: Diagnostic[] = [];
  const reader: Reader = { path, fault: fault => faults.push(fault) };
  const general = settingsIn(
    entries.filter(({ key }) => key !== TUNES),
    allowed,
    [TUNES],
    reader,
  );
  const tunes = tunesIn(
    entries.find(({ key }) => key === TUNES),
    allowed.filter(name => !FOR_A_RUN.has(name)),
    reader,
  );
  if (faults.length > 0) throw refusalIn(text, faults);
  return { path, general, tunes };
};

interface Reader {
  readonly path: string;
  readonly fault: (fault: Diagnostic) => void;
}

const tunesIn = (
  tunes: Entry | undefined,
  allowed: readonly OptionName[],
  reader: Reader,
): Config['tunes'] => {
  if (tunes && !tunes.entries) {
    reader.fault(
      lacking(tunes, '"tunes" names no tunes', 'write a line for each tune, and its options below it'),
    );
  }
  return new Map(
    tunes?.entries?.map(entry => {
      if (entry.entries) return [entry.key, settingsIn(entry.entries, allowed, [], reader)];
      const hint = 'write its options below it, indented: "frets: 5-9"';
      reader.fault(lacking(entry, `"${entry.key}" has no options`, hint));
      return [entry.key, {}];
    }),
  );
};

const lacking = ({ keyAt }: Entry, message: string, hint: string): Diagnostic => ({
  severity: 'error',
  code: CONFIG.badValue,
  message,
  hint,
  place: keyAt,
});

/** Reads options; `others` are keys that are right there and no options. */
const settingsIn = (
  entries: readonly Entry[],
  allowed: readonly OptionName[],
  others: readonly string[],
  reader: Reader,
): Settings => {
  const byKey = new Map(allowed.map(name => [longName(OPTIONS[name]), name]));
  return Object.fromEntries(
    entries.flatMap(entry => {
      const name = byKey.get(entry.key);
      const setting = name && settingIn(name, entry, reader);
      if (!name) reader.fault(unknownKey(entry, [...byKey.keys(), ...others], CONFIG));
      return setting ? [[name, setting]] : [];
    }),
  );
};

const settingIn = (name: OptionName, entry: Entry, reader: Reader): Setting | undefined => {
  const row: OptionRow = OPTIONS[name];
  const takes = { list: row.list ?? false, flag: isFlag(row), schema: row.schema };
  const found = valueFor(takes, entry, CONFIG);
  if (found.fault) {
    reader.fault(found.fault);
    return undefined;
  }
  return {
    typed: fromFolder(name, found.typed, dirname(reader.path)),
    origin: { kind: 'file', path: reader.path, line: entry.keyAt.line! },
  };
};

const fromFolder = (name: OptionName, typed: unknown, folder: string): unknown => {
  const from = (path: string): string => (isAbsolute(path) ? path : join(folder, path));
  if (PATHS.has(name) && typed !== '-') return from(String(typed));
  if (name !== 'instrument') return typed;
  return (typed as readonly string[]).map(each => (each.endsWith('.json') ? from(each) : each));
};
