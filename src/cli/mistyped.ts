/** What the parser says of a command line that it cannot read, in the form and the words of all diagnostics. */
import type { Command, CommanderError } from 'commander';
import { isLessonFile, isTuneFile } from '../batch/paths.ts';
import type { Diagnostic } from '../score/diagnostic.ts';

/** For each of the parser's codes, our words; what it names stands in the group. */
const WORDS: Readonly<Record<string, readonly [pattern: RegExp, say: (named: string) => string]>> = {
  'commander.unknownCommand': [/'(.+?)'/, name => `there is no command "${name}"`],
  'commander.unknownOption': [/'(.+?)'/, name => `there is no option ${name} here`],
  'commander.missingArgument': [/'(.+?)'/, name => `no ${name.replaceAll('-', ' ')} is named`],
  'commander.optionMissingArgument': [/(--\S+ <.+?>)/, option => `${option} lacks its value`],
  'commander.excessArguments': [
    /Expected (\d+)/,
    count => (count === '0' ? 'a name is typed where none goes' : 'more than one name is typed'),
  ],
};

/** What options are called in speech; near in letters are others. */
const IN_SPEECH: Readonly<Record<string, string>> = {
  '--format': '--to',
  '--key': '--transpose',
  '--window': '--frets',
  '--windows': '--frets',
};

const MEANT = /\(Did you mean (?:one of )?(.+)\?\)/;

/** The diagnostic of a parser's error; `command` is the one that was typed. */
export const mistyped = (
  { code, message: text }: CommanderError,
  command: Command | undefined,
): Diagnostic => {
  const [line = ''] = text.replace(/^error: /, '').split('\n');
  const [pattern, say] = WORDS[code] ?? [];
  const named = pattern?.exec(line)?.[1];
  const spoken = command?.options.find(({ long }) => long === IN_SPEECH[named ?? '']);
  const meant = spoken?.long ?? MEANT.exec(text)?.[1];
  return {
    severity: 'error',
    code: 'usage',
    message: named === undefined || !say ? line : say(named),
    hint:
      meant === undefined
        ? hintFor(code, named, command)
        : `is ${meant.replace(/, (\S+)$/, ' or $1')} meant?`,
  };
};

/** What to do: where the name of a file is no command's, or stands where only an option takes it. */
const hintFor = (code: string, named = '', command: Command | undefined): string => {
  if (code === 'commander.unknownCommand') {
    if (isTuneFile(named)) return `fretward arrange ${named} arranges a tune`;
    if (isLessonFile(named)) return `fretward lesson ${named} makes a lesson`;
  }
  if (code === 'commander.missingArgument') {
    const [choices] = command?.registeredArguments.map(({ argChoices }) => argChoices) ?? [];
    if (choices) return `use one of ${choices.join(', ')}`;
  }
  if (code === 'commander.unknownOption' && command === undefined) {
    return 'options stand after a command: fretward arrange tune.mxl -f 4-8; fretward --help lists the commands';
  }
  if (code === 'commander.unknownOption' && command?.name() === 'lesson') {
    return `how a tune is arranged stands in the lesson file; ${helpFor('lesson')}`;
  }
  return (code === 'commander.excessArguments' ? whereItGoes(named, command) : '') + helpFor(command?.name());
};

/** Which option takes what was typed as a name; `most` is how many names there may be. */
const whereItGoes = (most: string, command: Command | undefined): string => {
  const takes = (option: string): boolean => command?.options.some(({ long }) => long === option) ?? false;
  if (most === '0' && takes('--for')) return 'a tune goes after --for; ';
  return most === '1' && takes('--key') ? 'a scale goes after --key: --key "C major"; ' : '';
};

/** A long option with a single hyphen, which would be read as a short one and its value. */
export const singleHyphen = (argv: readonly string[], { options }: Command): Diagnostic | undefined => {
  const typed = argv.find(word => options.some(({ long }) => long === `-${word}`));
  return typed === undefined
    ? undefined
    : {
        severity: 'error',
        code: 'usage',
        message: `there is no option ${typed} here`,
        hint: `is -${typed} meant?`,
      };
};

const helpFor = (command: string | undefined): string =>
  command === undefined
    ? 'fretward --help lists the commands'
    : `fretward ${command} --help lists what it takes, with examples`;
