/** The options in force for a command: what was typed, over what a fretward.yaml says, for all tunes and for each. */
import { BLAMED } from '../batch/blame.ts';
import type { Input } from '../batch/inputs.ts';
import type { SaidAt } from '../batch/said.ts';
import { namesIn } from '../lesson/table.ts';
import type { DiagnosticPlace } from '../score/diagnostic.ts';
import { findConfig, settingsFor } from './config/find.ts';
import {
  type Config,
  fromCommandLine,
  type Origin,
  type Settings,
  together,
  typedOf,
} from './config/settings.ts';
import type { Definition } from './define.ts';
import { UsageError } from './exit.ts';
import { checkOptions } from './options/check.ts';
import { OPTIONS, type OptionName, type Options } from './options/options.ts';
import { flagOf } from './options/row.ts';

/** A tune as far as the configuration file knows it: by where it lies. */
type Located = Pick<Input, 'path'>;

export interface InForce<Name extends OptionName> {
  readonly config: Config | undefined;
  /** For all tunes. */
  readonly settings: Settings;
  readonly options: Options<Name>;
  /** For one of them; the same values as for all where the file says nothing of it. */
  readonly settingsFor: (tune: Located) => Settings;
  readonly optionsFor: (tune: Located) => Options<Name>;
  /** Where the file says what a tune shows to be wrong. */
  readonly saidAt: (tune: Located) => SaidAt;
}

interface Asking<Name extends OptionName> {
  /** Tunes as they were named; the file is looked for beside them. */
  readonly tunes: readonly string[];
  readonly typed: Readonly<Record<string, unknown>>;
  /** The options of the command: of the file it takes no others. */
  readonly names: readonly Name[];
  readonly said?: Definition['said'];
}

/** Reads what is in force. Throws a UsageError, or a Refusal that tells what is wrong in the file. */
export const inForce = async <Name extends OptionName>({
  tunes,
  typed,
  names,
  said = {},
}: Asking<Name>): Promise<InForce<Name>> => {
  checkOptions(typed, names);
  const config = await findConfig(typed.config, tunes);
  const line = fromCommandLine(typed);
  const taken = (settings: Settings): Settings => together(takenBy(names, said, settings), line);
  const settings = taken(config?.general ?? {});
  const options = checkOptions(typedOf(settings), names);
  const forTune = (tune: Located): Settings => {
    const own = settingsFor(config, tune);
    return own === undefined ? settings : taken(together(config?.general, own));
  };
  return {
    config,
    settings,
    options,
    settingsFor: forTune,
    optionsFor: tune => {
      const own = forTune(tune);
      return own === settings ? options : checkOptions(typedOf(own), names);
    },
    saidAt: tune => placesIn(forTune(tune)),
  };
};

/** Does what a command does with what is in force; wrong usage that the file is to blame for names its line. */
export const obeying = async <Name extends OptionName, T>(
  asking: Asking<Name>,
  make: (asked: InForce<Name>) => Promise<T>,
): Promise<T> => {
  const asked = await inForce(asking);
  return blaming(asked.settings, () => make(asked));
};

/** The same for a command that goes by one tune, or by none. */
export const obeyingOne = <Name extends OptionName, T>(
  typedTune: unknown,
  asking: Omit<Asking<Name>, 'tunes'>,
  make: (options: Options<Name>, saidAt: SaidAt) => Promise<T>,
): Promise<T> => {
  const tune = typeof typedTune === 'string' ? typedTune : undefined;
  return obeying({ ...asking, tunes: tune === undefined ? [] : [tune] }, asked => {
    const located = { path: tune === '-' ? undefined : tune };
    return blaming(asked.settingsFor(located), () => make(asked.optionsFor(located), asked.saidAt(located)));
  });
};

/** Of settings, what a command takes: its options, and of their words those that it knows. */
const takenBy = (names: readonly OptionName[], said: Definition['said'] = {}, settings: Settings): Settings =>
  Object.fromEntries(
    namesIn(settings).flatMap(name => {
      const setting = settings[name]!;
      const { words, own } = said[name] ?? {};
      if (!names.includes(name) || own) return [];
      if (!words) return [[name, setting]];
      const known = [setting.typed].flat().filter(each => words.includes(String(each)));
      if (known.length === 0) return [];
      return [[name, { ...setting, typed: Array.isArray(setting.typed) ? known : known[0] }]];
    }),
  );

const placesIn = (settings: Settings): SaidAt =>
  Object.fromEntries(
    Object.entries(BLAMED).flatMap(([code, name]) => {
      const origin = settings[name]?.origin;
      return origin?.kind === 'file' ? [[code, { place: placeOf(origin) }]] : [];
    }),
  );

const placeOf = ({ path, line }: Origin & { kind: 'file' }): DiagnosticPlace => ({ file: path, line });

/** Does something; a UsageError about an option that the file sets has its line there. */
export const blaming = async <T>(settings: Settings, make: () => T | Promise<T>): Promise<T> => {
  try {
    return await make();
  } catch (error) {
    throw error instanceof UsageError ? (blamed(settings, error) ?? error) : error;
  }
};

const blamed = (settings: Settings, { message, hint, about }: UsageError): UsageError | undefined => {
  const flag = /^--[a-z-]+/.exec(message)?.[0] ?? '';
  const name = namesIn(settings).find(each => each === about.option || flagOf(OPTIONS[each]) === flag);
  const origin = name && settings[name]?.origin;
  if (origin?.kind !== 'file') return undefined;
  const words = flag === '' ? message : `${flag.slice(2)}:${message.slice(flag.length)}`;
  return new UsageError(words, hint, { place: placeOf(origin) });
};
