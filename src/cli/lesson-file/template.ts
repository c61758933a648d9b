/** The lesson file to begin with: what most lessons say, and as comments what they may say. */
import { KEYS } from './keys.ts';

const BEGINNING = `# A lesson for fretward. What is handed out is made with
#     fretward lesson NAME
# Every line is a key, a colon and a value; lines that start with # are read by people only.

# The melody: a MusicXML file (.musicxml, .xml, .mxl), from the folder of this file.
tune: my-tune.musicxml

# What the lesson is called, and whose it is.
lesson: Up the neck
class: Monday class

# To the student, in Markdown: blank lines part paragraphs, **bold**, *italic*, lists with - or 1.
notes: |
  Read the first sheet without looking at the tablature. Then check yourself.

  - Say the note names before you play them.
  - Leave the hand in its place.

# Who plays: one edition for each instrument, alike wherever they can be.
instrument: [ukulele-low-g, ukulele]

# Where the hand is to stay: a window of frets, or one for each passage, such as [1-8:4-8, 9-16:7-11].
frets: 4-8

# What is handed out, in this order.
parts: [PARTS]

# ---- More that can be said; take the # away. What is not said has the value
# ---- that stands in brackets; what is true or false is false where none stands there.
`;

/** In the file from the start. */
const SAID = new Set(['tune', 'lesson', 'class', 'notes', 'instrument', 'frets', 'parts']);

/** The text of a new lesson file of that name. */
export const lessonTemplate = (name: string, parts: readonly string[]): string =>
  [
    BEGINNING.replace('NAME', name).replace('PARTS', parts.join(', ')),
    ...KEYS.filter(key => !SAID.has(key.name)).map(
      ({ name, help, flag, default: standard }) =>
        `# ${help}\n# ${name}:${flag ? ` ${standard !== 'true'}` : ''}\n`,
    ),
  ].join('\n');
