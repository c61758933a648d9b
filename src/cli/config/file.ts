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
import { readdirSync } from 'node:fs';
import { dirname, extname, isAbsolute, join, posix } from 'node:path';
import { readTextFile } from '../../batch/files.ts';
import { isInstrumentFile, isTuneFile } from '../../batch/paths.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import { nearest } from '../../score/nearest.ts';
import { FILE_NAMES, OPTIONS, type OptionName } from '../options/options.ts';
import { isFlag, longName, type OptionRow } from '../options/row.ts';
import { unknownKey, valueFor } from '../yaml/check.ts';
import { type Entry, entriesOf, refusalIn } from '../yaml/entries.ts';
import { CONFIG } from '../yaml/kind.ts';
import type { Config, Setting, Settings } from './settings.ts';

/** Options that hold for a whole run, and not for a tune of it. */
const FOR_A_RUN: ReadonlySet<OptionName> = new Set(['out', 'jobs', 'quiet', 'color']);
/** Options that name files. */
const PATHS: ReadonlySet<OptionName> = new Set(['out', 'font']);

const TUNES = 'tunes';

/** Reads a file. Throws a Refusal that lists all that is wrong in it. */
export const readConfig = (path: string): Config => {
  const text = readTextFile(path, 'name another file with --config, or obey none with --no-config');
  const entries = entriesOf(text, path, CONFIG);
  const faults: Diagnostic[] = [];
  const reader: Reader = { path, fault: fault => faults.push(fault) };
  const general = settingsIn(
    entries.filter(({ key }) => key !== TUNES),
    FILE_NAMES,
    [TUNES],
    reader,
  );
  const tunes = tunesIn(
    entries.find(({ key }) => key === TUNES),
    FILE_NAMES.filter(name => !FOR_A_RUN.has(name)),
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
      const name = posix.normalize(entry.key);
      const unknown = unknownTune(name, entry, dirname(reader.path));
      if (unknown) reader.fault(unknown);
      if (entry.entries) return [name, settingsIn(entry.entries, allowed, [], reader)];
      const hint = 'write its options below it, indented: "frets: 5-9"';
      reader.fault(lacking(entry, `"${entry.key}" has no options`, hint));
      return [name, {}];
    }),
  );
};

/** What is said of options for a tune that there is not: they would never be obeyed. */
const unknownTune = (name: string, { key, keyAt }: Entry, folder: string): Diagnostic | undefined => {
  const tunes = tunesBeside(name, folder);
  if (tunes.includes(name)) return undefined;
  const meant = nearest(name, tunes);
  return {
    severity: 'error',
    code: CONFIG.unknownKey,
    message: `there is no tune "${key}" here`,
    hint:
      meant === undefined
        ? 'write its path from the folder of this file, or take it out where the tune is gone'
        : `is "${meant}" meant?`,
    place: keyAt,
  };
};

/** Tunes in the folder of a tune, as they may be named: with and without their endings. */
const tunesBeside = (name: string, folder: string): readonly string[] => {
  try {
    return readdirSync(join(folder, posix.dirname(name)))
      .filter(isTuneFile)
      .flatMap(each => [each.slice(0, -extname(each).length), each])
      .map(each => posix.join(posix.dirname(name), each));
  } catch {
    return [];
  }
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
  return (typed as readonly string[]).map(each => (isInstrumentFile(each) ? from(each) : each));
};
