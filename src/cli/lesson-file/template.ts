/** The lesson file to begin with: what most lessons say, and as comments what they may say. */
import { dirname, join, relative, resolve, sep } from 'node:path';
import { isWithin } from '../../batch/paths.ts';
import type { Beginning } from '../../lesson/pack/beginning.ts';
import { KEYS, LONGEST_NAME } from './keys.ts';
import { real } from './paths.ts';

/** A new lesson file. */
export interface Begun extends Beginning {
  /** Path of the lesson file. */
  readonly file: string;
  /** Path of the tune; undefined where the teacher is to name it. */
  readonly tune: string | undefined;
  /** What the lesson is called. */
  readonly title: string;
}

/** The text of a new lesson file. */
export const lessonTemplate = (begun: Begun): string => {
  const said = new Set(['tune', 'lesson', 'class', 'notes', 'instrument', 'frets', 'parts']);
  const within = begun.tune === undefined ? undefined : wayUp(begun.file, begun.tune);
  if (within !== undefined) said.add('within');
  if (begun.transposition !== 0) said.add('transpose');
  const more = KEYS.filter(key => !said.has(key.name)).map(
    ({ name, help, flag, default: standard }) =>
      `# ${help}\n# ${name}:${flag ? ` ${standard !== 'true'}` : ''}\n`,
  );
  return [beginningOf(begun, within), ...more].join('\n');
};

const beginningOf = (
  { file, tune, title, instruments, window, transposition, parts }: Begun,
  within: string | undefined,
): string => `# A lesson for fretward. What is handed out is made with
#     fretward lesson ${file}
# Every line is a key, a colon and a value; lines that start with # are read by people only.

# The melody: a MusicXML file (.musicxml, .xml, .mxl), from the folder of this file.
tune: ${tune === undefined ? 'my-tune.musicxml' : written(wayTo(file, tune))}${within === undefined ? '' : withinLine(within)}

# What the lesson is called, and whose it is.
lesson: ${written(shortened(title))}
class: Monday class

# To the student, in Markdown: blank lines part paragraphs, **bold**, *italic*, lists with - or 1.
notes: |
  Read the tune from the sheet without tablature. Then check yourself.

  - Say the note names before you play them.
  - Leave the hand in its place.

# Who plays: one edition for each instrument, alike wherever they can be.
instrument: [${instruments.join(', ')}]

# Where the hand is to stay: a window of frets, or one for each passage, such as [1-8:4-8, 9-16:7-11].
frets: ${window.low}-${window.high}
${transposition === 0 ? '' : transposeLine(transposition)}
# What is handed out, in this order.
parts: [${parts.join(', ')}]

# ---- More that can be said; take the # away. What is not said has the value
# ---- that stands in brackets; what is true or false is false where none stands there.
`;

const withinLine = (within: string): string => `

# The folder that paths in this file may not leave, from its own.
within: ${within}`;

const transposeLine = (semitones: number): string => `
# As it is written the tune does not fit: it is moved by so many semitones.
transpose: ${semitones}
`;

/** The way from the folder of the lesson up to one that the tune is in, too; undefined where that is the folder itself. */
const wayUp = (file: string, tune: string): string | undefined => {
  const steps = wayTo(file, tune).split('/');
  const up = steps.filter(step => step === '..');
  return up.length > 0 ? up.join('/') : undefined;
};

/** The tune as seen from the folder of the lesson; where links lead out of the common folder, without them. */
const wayTo = (file: string, tune: string): string => {
  const folder = dirname(file);
  const way = relative(resolve(folder), resolve(tune));
  const common = join(folder, ...way.split(sep).filter(step => step === '..'));
  const direct = isWithin(real(tune), real(common)) ? way : relative(real(folder), real(tune));
  return direct.split(sep).join('/');
};

/** As much of a title as the name of a lesson takes, in whole words where there are several. */
const shortened = (title: string): string => {
  if (title.length <= LONGEST_NAME) return title;
  const start = title.slice(0, LONGEST_NAME - 2).replace(/(?<=\s\S*)\S*$|[\ud800-\udbff]$/, '');
  return `${start.trimEnd()} …`;
};

/** A text as YAML reads it: plain where nothing in it could be taken for something else. */
const written = (text: string): string =>
  /^[\p{L}][\p{L}\d /._()'’-]*(?<! )$/u.test(text) && !RESERVED.test(text) ? text : JSON.stringify(text);

const RESERVED = /^(true|false|null|yes|no|on|off|y|n)$/i;
