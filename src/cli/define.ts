/** A command's argument, options and examples, given to the parser that reads and explains them. */
import { Argument, type Command, Option } from 'commander';
import { UsageError } from './exit.ts';
import { helpText } from './help.ts';
import { checkValue } from './options/check.ts';
import { OPTIONS, type OptionName } from './options/options.ts';
import { helpOf, isFlag, longName, type OptionRow, type Said } from './options/row.ts';
import { oneOf } from './options/values.ts';
import { columnsOf } from './width.ts';

export interface Definition {
  /** '<tune...>', what help says of it, and what it may be where that can be counted. */
  readonly argument?: readonly [name: string, help: string, choices?: readonly string[]];
  readonly options?: readonly OptionName[];
  /** Where this command says something else of an option than the others do. */
  readonly said?: Readonly<Partial<Record<OptionName, Said>>>;
  /** Paragraphs before the examples. */
  readonly notes?: string;
  /** Command lines, indented, each with a line that says what it does. */
  readonly examples: string;
}

/** The `define` of a command. */
export const defined =
  ({ argument, options = [], said = {}, notes, examples }: Definition) =>
  (command: Command): void => {
    if (argument) command.addArgument(argumentOf(argument, command.name()));
    for (const name of options) addOption(command, OPTIONS[name], said[name]);
    const after = `${notes === undefined ? '' : `\n${notes}\n`}\nExamples:\n${examples}`;
    command.addHelpText('after', () => helpText(after, columnsOf(process.stdout)));
  };

const argumentOf = (
  [name, help, choices]: NonNullable<Definition['argument']>,
  command: string,
): Argument => {
  const argument = new Argument(name, help);
  if (!choices) return argument;
  return argument.choices(choices).argParser(word => {
    const { reasons } = checkValue(oneOf(choices), word);
    if (reasons === undefined) return word;
    throw new UsageError(`${command} does not take "${word}"`, reasons);
  });
};

/** The `define` of a command that takes tunes. */
export const takesTunes = (definition: Omit<Definition, 'argument'>) =>
  defined({
    argument: [
      '<tune...>',
      'MusicXML files (.musicxml, .xml, .mxl), folders, globs, or - for standard input',
    ],
    ...definition,
  });

/** An option that knows which words its command takes, where those are fewer than elsewhere. */
export class RowOption extends Option {
  words: readonly string[] | undefined;
}

/** What can be on can be switched off, without a line of its own in help. */
const addOption = (command: Command, row: OptionRow, said: Said | undefined): void => {
  const option = new RowOption(row.flags, helpOf(row, said));
  option.words = said?.words;
  if (row.list) option.argParser(collect);
  command.addOption(option);
  if (isFlag(row) || row.revocable) {
    const name = longName(row);
    command.addOption(new Option(`--no-${name}`, `take back --${name}`).hideHelp());
  }
};

const collect = (value: string, before: readonly string[] | undefined): readonly string[] => [
  ...(before ?? []),
  ...value.split(',').map(each => each.trim()),
];
