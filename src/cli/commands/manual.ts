/** `fretward manual`: the man page, out of the same definitions as the help (roff as in man(7)). */
import type { Command } from 'commander';
import { print } from '../console.ts';
import { defined } from '../define.ts';
import { EXIT, EXIT_MEANINGS } from '../exit.ts';
import { type CommandOutline, type OptionOutline, outlineOf } from '../outline.ts';

const EXAMPLES = `  fretward manual > ~/.local/share/man/man1/fretward.1
      where man looks for it; make the folder first
  fretward manual | man -l -
      to read it now`;

export const define = defined({ examples: EXAMPLES });

export const run = async (
  _args: readonly string[],
  _typed: Readonly<Record<string, unknown>>,
  everything: () => Promise<Command>,
): Promise<number> => {
  const root = await everything();
  print(manPage(root.description(), root.version() ?? '', outlineOf(root)));
  return EXIT.done;
};

const manPage = (about: string, version: string, commands: readonly CommandOutline[]): string =>
  [
    `.TH FRETWARD 1 "" "fretward ${roff(version)}" "User Commands"`,
    '.SH NAME',
    'fretward \\- arrange a melody for a fretted instrument and write its sheets',
    '.SH SYNOPSIS',
    ...commands.flatMap(({ name, argument }, index) => [
      ...(index > 0 ? ['.br'] : []),
      `.B fretward ${name}`,
      roff(`[options] ${argument}`.trim()),
    ]),
    '.SH DESCRIPTION',
    ...paragraph(about.replaceAll('\n', ' ')),
    '.SH COMMANDS',
    ...commands.flatMap(section),
    '.SH FLAGS',
    ...paragraph(
      'Options without a value are off unless something else is said. What fretward.yaml switches on, --no- before its name switches off: --no-match.',
    ),
    '.SH EXIT STATUS',
    ...Object.entries(EXIT_MEANINGS).flatMap(([status, meaning]) => [
      '.TP',
      status,
      ...paragraph(sentence(meaning)),
    ]),
    '.SH FILES',
    '.TP',
    '.I fretward.yaml',
    ...paragraph('Options for the tunes of a folder; see fretward config.'),
    '.TP',
    '.I .fretward-made.json',
    ...paragraph('In a folder of sheets: what they were made of. It may be deleted; all is made again then.'),
    '',
  ].join('\n');

const section = ({ name, summary, argument, argumentHelp, options }: CommandOutline): readonly string[] => [
  `.SS ${name}`,
  ...paragraph(sentence(summary)),
  ...(argument ? ['.TP', `.I ${roff(argument)}`, ...paragraph(argumentHelp)] : []),
  ...options
    .filter(({ hidden }) => !hidden)
    .flatMap(option => ['.TP', flags(option), ...paragraph(option.help)]),
];

const sentence = (words: string): string => `${words[0]!.toUpperCase()}${words.slice(1)}.`;

const flags = ({ short, long, value }: OptionOutline): string => {
  const names = [short, long].filter(each => each !== undefined).map(each => `\\fB${roff(each)}\\fR`);
  return `${names.join(', ')}${value ? ` \\fI${roff(value)}\\fR` : ''}`;
};

const paragraph = (text: string): readonly string[] => [roff(text)];

/** Text without what roff would take for its own. */
const roff = (text: string): string =>
  text.replaceAll('\\', '\\e').replaceAll('-', '\\-').replace(/^[.']/, '\\&$&');
