/** The commands, one row each, and the parser that is made from them. */
import { Command, CommanderError } from 'commander';
import manifest from '../../package.json' with { type: 'json' };
import { report } from './console.ts';
import { EXIT } from './exit.ts';
import { HELP_LAYOUT, helpText } from './help.ts';
import { mistyped, singleHyphen } from './mistyped.ts';
import { columnsOf } from './width.ts';

/** What a command's file exports. */
interface CommandModule {
  /** Gives the command its arguments, options and examples. */
  readonly define: (command: Command) => void;
  /** Runs it on what was typed and answers the exit status; `everything` is the program with all commands defined. */
  readonly run: (
    args: readonly string[],
    options: Readonly<Record<string, unknown>>,
    everything: () => Promise<Command>,
  ) => Promise<number>;
}

interface CommandRow {
  readonly name: string;
  readonly summary: string;
  readonly load: () => Promise<CommandModule>;
}

const COMMANDS: readonly CommandRow[] = [
  {
    name: 'lesson',
    summary: 'make all that a lesson hands out, from one file',
    load: () => import('./commands/lesson.ts'),
  },
  {
    name: 'arrange',
    summary: 'find string, fret and finger for every note and write the sheets',
    load: () => import('./commands/arrange.ts'),
  },
  {
    name: 'inspect',
    summary: 'list what is in a tune, and the instruments and windows it would fit',
    load: () => import('./commands/inspect.ts'),
  },
  {
    name: 'survey',
    summary: 'try every window of frets in every key around, and rank them',
    load: () => import('./commands/survey.ts'),
  },
  {
    name: 'explain',
    summary: 'say what each note was paid for its place, and what other places would cost',
    load: () => import('./commands/explain.ts'),
  },
  {
    name: 'difficulty',
    summary: 'count shifts, reach and crossings, and name the hardest moves',
    load: () => import('./commands/difficulty.ts'),
  },
  {
    name: 'scale',
    summary: 'write a scale or arpeggio in the places of a window, or of a tune',
    load: () => import('./commands/scale.ts'),
  },
  {
    name: 'chords',
    summary: 'find shapes for chords, and write the chord chart of a tune',
    load: () => import('./commands/chords.ts'),
  },
  {
    name: 'neck',
    summary: 'map the fingerboard: where a tune or a scale lies on it',
    load: () => import('./commands/neck.ts'),
  },
  {
    name: 'cues',
    summary: 'say a tune in words: beat, note, string, fret, finger',
    load: () => import('./commands/cues.ts'),
  },
  {
    name: 'drill',
    summary: 'make a new melody for sight-reading in given places',
    load: () => import('./commands/drill.ts'),
  },
  {
    name: 'check',
    summary: 'look over string and fret numbers that are in a file',
    load: () => import('./commands/check.ts'),
  },
  {
    name: 'config',
    summary: 'print which options are in force, and where each comes from',
    load: () => import('./commands/config.ts'),
  },
  {
    name: 'report',
    summary: 'put the reports of several runs together',
    load: () => import('./commands/report.ts'),
  },
  {
    name: 'codes',
    summary: 'explain the codes of warnings and errors',
    load: () => import('./commands/codes.ts'),
  },
  {
    name: 'schema',
    summary: 'print what lesson files and --to json say, as JSON Schema',
    load: () => import('./commands/schema.ts'),
  },
  {
    name: 'completion',
    summary: 'print a script that lets a shell complete what is typed',
    load: () => import('./commands/completion.ts'),
  },
  {
    name: 'manual',
    summary: 'print the man page',
    load: () => import('./commands/manual.ts'),
  },
];

const ABOUT = `Arranges a melody for a fretted instrument inside a window of frets
and writes the sheets that a lesson needs.`;

const EXAMPLES = `
Examples:
  fretward inspect tune.mxl
  fretward arrange tune.mxl --instrument ukulele-low-g --frets 4-8
  fretward arrange tunes/ -i ukulele,ukulele-low-g -f 4-8 --to svg -o sheets/

Options without a value are off unless their help says otherwise; --no-… takes
one back: --no-match.

Exit status: 0 all done; 1 some tune could not be; 2 wrong usage; 3 a fault of
fretward's own.`;

/** Parses argv (without node and script), runs the command and answers the exit status. */
export const program = async (argv: readonly string[]): Promise<number> => {
  let status: number = EXIT.done;
  const root = rootCommand();
  const name = commandIn(argv);
  for (const row of COMMANDS) {
    const command = addCommand(root, row);
    if (row.name !== name) continue;
    const { run } = await defineCommand(command, row);
    const single = singleHyphen(argv, command);
    if (single) {
      report([single], false);
      return EXIT.usage;
    }
    command.action(async () => {
      const { jsonErrors: _, ...options } = command.opts();
      status = await run(command.args, options, everything);
    });
  }
  try {
    await root.parseAsync(isHelpForNone(argv) ? argv.slice(1) : argv, { from: 'user' });
  } catch (error) {
    if (!(error instanceof CommanderError)) throw error;
    if (error.exitCode === 0) return EXIT.done;
    // Where nothing was typed, help was printed.
    if (error.code !== 'commander.help') {
      report(
        [
          mistyped(
            error,
            root.commands.find(each => each.name() === name),
          ),
        ],
        false,
      );
    }
    return EXIT.usage;
  }
  return status;
};

/** The word that names a command: the first, or that after `help`. */
const commandIn = ([first, second]: readonly string[]): string | undefined =>
  first === 'help' ? second : first;

/** Whether help is asked for a command that there is not; the parser says so when that is typed alone. */
const isHelpForNone = ([first, name = '']: readonly string[]): boolean =>
  first === 'help' && /^[^-]/.test(name) && !['help', ...COMMANDS.map(row => row.name)].includes(name);

/** The program with all its commands defined, to be read and not run. */
const everything = async (): Promise<Command> => {
  const root = rootCommand();
  for (const row of COMMANDS) await defineCommand(addCommand(root, row), row);
  return root;
};

const rootCommand = (): Command =>
  new Command('fretward')
    .description(ABOUT)
    .version(manifest.version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print help for a command')
    .helpCommand('help [command]', 'print help for a command')
    .addHelpText('after', () => helpText(EXAMPLES, columnsOf(process.stdout)))
    .configureOutput({ outputError: () => {} })
    .configureHelp(HELP_LAYOUT)
    .exitOverride();

const addCommand = (root: Command, { name, summary }: CommandRow): Command =>
  root.command(name).summary(summary).helpOption('-h, --help', 'print this help');

const defineCommand = async (command: Command, { summary, load }: CommandRow): Promise<CommandModule> => {
  const loaded = await load();
  loaded.define(command.description(`${summary[0]!.toUpperCase()}${summary.slice(1)}.`));
  command.option('--json-errors', 'write warnings and errors as JSON, one a line');
  return loaded;
};
