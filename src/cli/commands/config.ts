/** `fretward config`: what is in force for tunes, and who says so. */
import { STANDARD_INPUT } from '../../batch/inputs.ts';
import { namesIn } from '../../lesson/table.ts';
import type { Config, Origin, Setting, Settings } from '../config/settings.ts';
import { print, printJson } from '../console.ts';
import { defined } from '../define.ts';
import { EXIT } from '../exit.ts';
import { inForce } from '../in-force.ts';
import { FILE_NAMES, OPTIONS, type OptionName } from '../options/options.ts';
import { longName } from '../options/row.ts';
import { REQUEST_NAMES } from '../request.ts';
import { table } from '../table.ts';
import { tunesNamed } from '../tunes.ts';
import { columnsOf, wrapped } from '../width.ts';

/** What a file may say, and what is typed for `arrange`. */
const SHOWN = [...new Set([...REQUEST_NAMES, ...FILE_NAMES])];
const OPTION_NAMES: readonly OptionName[] = [...SHOWN, 'json'];

const ABOUT = `A fretward.yaml lies beside the tunes or in a folder above them, up to the one
where fretward is called; the nearest is in force:

  instrument: [ukulele, ukulele-low-g]
  frets: 4-8
  to: [pdf]
  out: sheets
  tunes:
    carols/coventry-carol:
      frets: 5-9
      transpose: 2

Every command that reads tunes obeys it, and takes of it the options that it
knows. Options have their long names, and flags are true or false. Those under
tunes hold for one tune, named by its path from the file, and win over those
above; what is typed wins over both: --no-match switches off what the file
switches on. Lessons obey their own files alone.`;

const EXAMPLES = `  fretward config tunes/
      what holds for all tunes, and what the file says about single ones
  fretward config tunes/carols/coventry-carol.mxl -f 6-10
      what holds for one tune, with an option typed
  fretward config tunes/ --json
      the same as JSON`;

export const define = defined({
  argument: ['[tune...]', 'MusicXML files (.musicxml, .xml, .mxl), folders or globs'],
  options: OPTION_NAMES,
  notes: ABOUT,
  examples: EXAMPLES,
});

export const run = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const { json, ...said } = typed;
  const { config, settings, settingsFor } = await inForce({ tunes, typed: said, names: SHOWN });
  const found = await tunesNamed(tunes);
  // What is not there is refused.
  for (const input of found) if (input.name !== STANDARD_INPUT) input.load(0);
  const [only] = found;
  const rows =
    only && tunes.length === 1 && only.name === tunes[0]
      ? rowsOf(only.name, settingsFor(only))
      : [
          ...rowsOf('all', settings),
          ...found.flatMap(input => rowsOf(input.name, differing(settingsFor(input), settings))),
        ];
  if (json) printJson({ file: config?.path ?? null, options: rows });
  else print(wrapped(text(config, rows), columnsOf(process.stdout)));
  return EXIT.done;
};

/** Settings that are not the general ones. */
const differing = (settings: Settings, general: Settings): Settings =>
  Object.fromEntries(
    namesIn(settings).flatMap(name => (general[name] === settings[name] ? [] : [[name, settings[name]]])),
  );

interface Row {
  readonly tune: string;
  readonly option: string;
  readonly value: unknown;
  readonly from: string;
}

const rowsOf = (tune: string, settings: Settings): readonly Row[] =>
  SHOWN.flatMap(name => {
    const setting: Setting | undefined = settings[name];
    if (!setting) return [];
    return [
      { tune, option: longName(OPTIONS[name]), value: setting.typed, from: originName(setting.origin) },
    ];
  });

const originName = (origin: Origin): string =>
  origin.kind === 'file' ? `${origin.path}, line ${origin.line}` : origin.kind;

const text = (config: Config | undefined, rows: readonly Row[]): string => {
  const head = config ? `options from ${config.path}` : 'no fretward.yaml is in force';
  if (rows.length === 0) return `${head}; every option has its default (fretward arrange --help)\n`;
  return `${head}; what is not listed has its default (fretward arrange --help)\n\n${table(
    [
      { title: 'tune', align: 'left', cell: row => row.tune },
      { title: 'option', align: 'left', cell: row => row.option },
      { title: 'value', align: 'left', flows: true, cell: row => [row.value].flat().join(', ') },
      { title: 'from', align: 'left', cell: row => row.from },
    ],
    rows,
  )}`;
};
