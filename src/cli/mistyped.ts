/** What the parser says of a command line that it cannot read, in the form and the words of all diagnostics. */
import type { CommanderError } from 'commander';
import type { Diagnostic } from '../score/diagnostic.ts';

/** For each of the parser's codes, our words; what it names stands in the group. */
const WORDS: Readonly<Record<string, readonly [pattern: RegExp, say: (named: string) => string]>> = {
  'commander.unknownCommand': [/'(.+?)'/, name => `there is no command "${name}"`],
  'commander.unknownOption': [/'(.+?)'/, name => `there is no option ${name} here`],
  'commander.missingArgument': [/'(.+?)'/, name => `no ${name.replaceAll('-', ' ')} is named`],
  'commander.optionMissingArgument': [/(--\S+ <.+?>)/, option => `${option} lacks its value`],
  'commander.excessArguments': [/but got (\d+)/, () => 'more is typed than this takes'],
};

const MEANT = /\(Did you mean (?:one of )?(.+)\?\)/;

/** The diagnostic of a parser's error; `command` is what was typed first. */
export const mistyped = (
  { code, message: text }: CommanderError,
  command: string | undefined,
): Diagnostic => {
  const [line = ''] = text.replace(/^error: /, '').split('\n');
  const [pattern, say] = WORDS[code] ?? [];
  const named = pattern?.exec(line)?.[1];
  const meant = MEANT.exec(text)?.[1];
  return {
    severity: 'error',
    code: 'usage',
    message: named === undefined || !say ? line : say(named),
    hint: meant === undefined ? helpFor(command) : `is ${meant} meant?`,
  };
};

const helpFor = (command: string | undefined): string =>
  command === undefined
    ? 'fretward --help lists the commands'
    : `fretward ${command} --help lists what it takes, with examples`;
