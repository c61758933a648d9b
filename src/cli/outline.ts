/** The whole command line as data, read off the same definitions as the help: for shells and for the man page. */
import type { Command, Option } from 'commander';
import { RowOption } from './define.ts';
import { wordsFor } from './options/check.ts';
import { OPTIONS, type OptionName } from './options/options.ts';

export interface OptionOutline {
  /** "-f"; undefined where there is none. */
  readonly short: string | undefined;
  /** "--frets". */
  readonly long: string;
  /** "<low-high>"; undefined for a flag. */
  readonly value: string | undefined;
  readonly help: string;
  /** Takes another one back, and has no line in help. */
  readonly hidden: boolean;
  /** Words that it takes; none where they cannot be counted. */
  readonly words: readonly string[];
}

export interface CommandOutline {
  readonly name: string;
  readonly summary: string;
  /** As in the usage line: "<tune...>". */
  readonly argument: string;
  readonly argumentHelp: string;
  /** Words that the argument is one of; none where it is a file. */
  readonly words: readonly string[];
  readonly options: readonly OptionOutline[];
}

/** The outline of each command of a program whose commands are all defined. */
export const outlineOf = (root: Command): readonly CommandOutline[] =>
  root.commands
    .filter(command => command.name() !== 'help')
    .map(command => {
      const [argument] = command.registeredArguments;
      const name = argument && `${argument.name()}${argument.variadic ? '...' : ''}`;
      return {
        name: command.name(),
        summary: command.summary(),
        argument: name ? (argument.required ? `<${name}>` : `[${name}]`) : '',
        argumentHelp: argument?.description ?? '',
        words: argument?.argChoices ?? [],
        options: [
          ...command.options.map(option => ({
            short: option.short,
            long: option.long!,
            value: option.flags.match(/<.+>/)?.[0],
            help: option.description,
            hidden: option.hidden,
            words: wordsOf(option),
          })),
          {
            short: '-h',
            long: '--help',
            value: undefined,
            help: 'print this help',
            hidden: false,
            words: [],
          },
        ],
      };
    });

const wordsOf = (option: Option): readonly string[] => {
  if (option instanceof RowOption && option.words) return option.words;
  const name = option.attributeName();
  return name in OPTIONS ? wordsFor(name as OptionName) : [];
};
