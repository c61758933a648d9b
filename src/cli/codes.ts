/**
 * Every code of every diagnostic, once: what it says, why it comes up, and what to do. `fretward codes`
 * prints it. A code that the sources use and this table does not have fails a test.
 */

const SEVERITIES = ['error', 'warning', 'note'] as const;

export interface CodeRow {
  readonly code: string;
  readonly severity: (typeof SEVERITIES)[number];
  readonly what: string;
  readonly why: string;
  readonly whatToDo: string;
}

/** A line a code, in the order of the codes: code | severity | what | why | what to do. */
const TABLE = `
archive-without-container | error | the compressed file does not say which of its files is the score | it is an archive of another kind, or its META-INF/container.xml was lost | export the tune as MusicXML, .mxl or .musicxml
archive-without-root-file | error | the compressed file names a score that is not in it | the archive was put together by hand, or cut off | export the tune again
bad-capo | error | the capo does not go on the instrument | no fret would be left beyond it | use a lower fret
bad-divisions | error | a quarter note is divided into a number that is not positive and whole | the file was edited by hand, or its writer has a fault | mend <divisions>, or export the tune again
bad-duration | error | a note or rest has no length, a negative one, or one that is no number | the file was edited by hand, or its writer has a fault | mend the duration, or export the tune again
bad-instrument-file | error | the file that describes an instrument is wrong | something is missing in it, mistyped, or beyond what a neck can be | mend what the message names
bad-pitch | error | a note has no step from A to G, or no octave | the file was edited by hand, or its writer has a fault | mend the pitch, or export the tune again
bad-tuning | error | the tuning cannot be read | a string is no note with an octave number | write the open strings, string 1 last: "G3 C4 E4 A4"
best-key | note | the key that --transpose best chose | most notes fit in it, at least effort | nothing; give semitones with --transpose to choose for yourself
broken-xml | error | the file is not well-formed XML | it was cut off, edited by hand, or is no XML at all | export the tune again
cannot-reach-key | error | the tune cannot be moved to the key that --transpose names | the tune is in another mode, its key has no name, or the new one would need more than seven sharps or flats | name a key of the tune's own mode, or semitones
cannot-read | error | a file or folder cannot be read | it is not there, or its permissions forbid it | check the path and its permissions
cannot-write | error | an output cannot be written | the folder may not be written to, something is in the way, or the disk is full | choose another folder with --out, or make room
characters-not-carried | warning | the fonts of the sheets lack some characters | they are outside the scripts that the fonts hold | open the sheet where a font has them, or write PDF with --font
characters-not-shown | warning | some characters are printed as empty boxes | neither the fonts of the sheets nor the one of --font have them | give a font file that has them with --font
clef-not-drawn | warning | a change of clef is not drawn | a sheet is set in the one clef that its instrument reads | nothing; the notes are right in the clef of the sheet
config-bad-value | error | an option in the configuration file does not take its value | it is mistyped, or of another kind | write what the message names
config-broken | error | the configuration file is not YAML, or holds no keys and values | a bracket, a quote or the indentation is wrong | see the example in fretward config --help
config-unknown-key | error | the configuration file has a key that there is not | it is mistyped, or does not hold there | use the name that the message gives
cue-notes | warning | small notes that cue the player were left out | somebody else plays them | nothing
damaged-archive | error | the compressed file cannot be unpacked | it was cut off or changed on its way, or is encrypted | export the tune again, or uncompressed
editions-differ | note | how far an edition lies elsewhere than the first one | --match was asked for, and some notes cannot lie there | nothing; the list is what students will see
empty-file | error | the file is empty | saving or copying it failed | export the tune again
fault | error | fretward made a mistake of its own | this should not happen, whatever the input | report it together with the tune and the command
focus-outside | error | a place to practise is none of the drill | it is outside the window, or the tune does not have it | choose a place that the message lists
font-unreadable | error | the font file cannot be used | it is damaged, or of a kind that cannot be embedded | give another .ttf, .otf or .woff file
foreign-entity | error | the file uses an XML entity that is not one of XML's own | entities can be made to fill the memory or to fetch files, so none is expanded | replace the entity by what it stands for
hand-shifts | note | the index finger moves to another fret | the notes do not all lie in one position | nothing
impossible-place | error | a chosen place does not sound the note, or is not on the neck | it was mistyped, or marked for another tuning | change the place, or the marks in the file
key-beyond-seven | error | the scale needs more than seven sharps or flats | its tonic is spelt in a way that key signatures do not reach | use the note that sounds the same
left-out | warning | the tune has notation that the sheets do not show | it is outside what a sheet for a melody holds | check that the music is whole without it
left-over | warning | sheets of an earlier run belong to nothing that is made now | a tune, an edition, a part or a kind of sheet is no longer asked for, or cannot be made now; or a lesson file is wrong | mend what is wrong, or delete them, lest they are handed out; the summary of --report json lists all
lesson-bad-value | error | the lesson file says something that does not hold there | it is mistyped, or of another kind | write what the message names
lesson-broken | error | the lesson file is not YAML, or no lesson | a bracket, a quote or the indentation is wrong, or a tune was named | begin with fretward lesson --init
lesson-exists | error | a lesson file is there already | it is not overwritten | choose another name
lesson-path-outside | error | a lesson names a file outside its folder | a lesson from somebody else shall not read what it has no business with | put the file there, or name the common folder
lesson-unknown-key | error | the lesson file has a key that there is not | it is mistyped | use the name that the message gives
lesson-without-chords | note | a lesson has no chord chart | its tune has no chord symbols | write them over the staff, and export the tune again
lesson-without-tune | error | the lesson file names no tune | without one there is nothing to make sheets of | add a line "tune: my-tune.musicxml"
marks-ignored | note | string, fret or fingering numbers in the file were not used | they are obeyed only where that is asked for | add --keep-marked to obey them
no-chord-symbols | error | the tune has no chord symbols | a chart is made of them | write them over the staff, and export the tune again
no-coda | warning | the way to the coda is not followed when the tune is played | there is no coda sign after it | set the sign, and export the tune again
no-fine | warning | the tune is played to its end after D.C. or D.S. al Fine | Fine stands nowhere in it | set it where the tune ends, and export the tune again
no-match | error | no file has a name like the glob | it is mistyped, or for another folder | check it; quote it, so that the shell leaves it alone
no-note-to-place | error | there is no note where a place was chosen, or one was to be explained | the pitch does not occur, or nothing is struck there | choose one that the message lists
no-notes | error | the part or voice has no pitched notes | it is percussion, or rests only | choose another with --part or --voice
no-parts | error | the score has no parts | the file holds no music | export the tune again
no-places-marked | error | no note has a string and a fret | the marks are in another part or voice, or there are none | name the part or voice with --part or --voice
no-room-for-octaves | error | the scale does not fit so many times | the window or the neck is too short for it | ask for fewer octaves, or another tonic
no-segno | warning | D.S. is not followed when the tune is played | there is no segno before it | set the sign, and export the tune again
no-shape | error | notes struck together cannot be held | no hand reaches them under the rules | play top notes only, or widen the window
no-tunes-in-folder | error | there is no MusicXML file in the folder | tunes end in .musicxml, .xml or .mxl | check the folder
not-a-report | error | a line is no report on a tune | the file is of another kind, or was cut off | give what fretward arrange --report jsonl or json wrote
not-musicxml | error | the file is XML, but no MusicXML score | it was exported in another format | export the tune as MusicXML
not-proven-cheapest | note | a cheaper fingering may exist | passages that return are fingered alike, and not all ways of doing so were tried | --free-repeats fingers each for itself, provably at least cost
note-off-the-instrument | error | the instrument does not have a note | it is below the lowest string or above the highest fret | transpose, or take another instrument or tuning
note-outside-window | warning | a note has no place inside the window | no string sounds it between those frets | do what the message offers: another key, window or instrument
notes-too-far-apart | error | a drill cannot be made of these notes | they lie too far apart for its grade | widen the window, or take a higher grade
open-string-in-window | note | open strings sound notes that the window has not | --open allows it where nothing else will do | --open never forbids it
output-left-over | error | sheets of an earlier run lie beside those that are made now | --verify found them: a tune, an edition, a part or a kind of sheet is no longer asked for | delete them, or run the command that makes them
output-missing | error | a sheet is not there | --verify found that it was never made, or was deleted | run the same command without --verify
output-shared | warning | sheets are written over that were made of another tune, or in between with other options | two commands write the same files; or options were changed, and changed back | where both are wanted, give each command a folder of its own with --out
output-stale | error | a sheet is not what it would be now | tune, options or program have changed, or the sheet has | run the same command without --verify
part-chosen | note | which of several parts is arranged | the first one with notes is taken | choose with --part
place-changes-under-tie | error | a held note is marked with another string, fret or finger | it was marked as if it were struck again | leave out the marks of tied notes
place-missing | error | a note has no string or no fret | it was forgotten, or added later | mark one of the places that the message names
place-not-the-same | error | a pitch is marked in two places | --one-place was asked for | mark it at the same place
place-off-the-neck | error | a note is marked on a string or a fret that there is not | it was marked for another instrument | mark one of the places that the message names
place-out-of-reach | error | the hand cannot hold what is marked | the fingers are too far apart, or stand in the wrong order | change fingers or places, or give the size of the hand with --hand
place-outside-window | error | a note is marked outside the window of frets | it was marked for another lesson | mark one of the places that the message names, or widen the window
place-sounds-another-note | error | another note sounds where a note is marked | the note was changed later, or marked for another tuning | mark one of the places that the message names
png-unavailable | error | pictures cannot be made on this machine | the rasteriser was not installed with fretward | install fretward again, or write SVG or PDF
quarter-tones | error | the melody has quarter tones | frets play semitones | choose another part or voice, or write the nearest semitones
report-cut-off | error | a report ends before its run did | the run was interrupted, or goes on still | run that command again; without it, its tunes are not counted
rules-contradict | error | no fingering satisfies all the rules | each may be possible, but not all together | leave one out, or widen the window
same-output | error | two tunes would write the same sheets | their names differ only in what comes after the dot, or in the folder | rename one, or write them to different folders
share-missing | error | the report of a share is not there | it was not given, or that machine had other tunes | give the reports of all machines
share-repeated | error | two reports are of the same tunes | a report was given twice, or in parts and as a whole | leave one of them out
silent-part | error | the chosen part has no notes | it rests throughout | use one that the message lists
silent-voice | error | the chosen voice has no notes | it rests throughout | use one that the message lists
string-used-twice | error | two notes of a chord are marked on one string | one of them was mistyped | mark each on a string of its own
tangled-voice | error | more notes of one voice sound at once than can be told apart | the writer put several voices into one | export the tune again, one voice for each line
too-deep | error | XML elements are nested deeper than in any score | the file was made to do harm, or by a broken program | export the tune again
too-few-notes | error | a drill cannot be made of so few notes | window and scale leave too few, or no tonic | widen the window, or take another scale
too-fine-divisions | error | the durations have no common measure that can be counted | several parts divide the quarter note in very different ways | export only the part with the melody
too-large | error | the file holds more bytes than are read | it is a whole orchestra's score, or was made to do harm | export only the melody, or raise --max-bytes
too-many-elements | error | an XML element has more in it than any score needs | the file was made to do harm, or by a broken program | export the tune again
too-many-notes | error | the score has more notes than are read | it is a whole orchestra's score, or was made to do harm | export only the melody, or raise --max-notes
too-many-parts | error | the score has more parts and measures than any score | the file was made to do harm, or by a broken program | export only the part with the melody
too-many-repeats | error | played out, the repeats are longer than any tune | a repeat says that it is played very often, or jumps go round in a circle | look at the repeats and jumps in the file
top-notes | note | of notes struck together, the highest were taken | a melody has one note at a time | --chords all takes them all
unknown-chord | error | a chord symbol cannot be read | it is mistyped | write root and kind: G, Am7, Bb9, F#m7b5
unknown-encoding | error | the file declares an encoding that is not known | it is mistyped, or very old | save the file as UTF-8
unknown-instrument | error | there is no such instrument | it is mistyped, or not in the catalogue | use one that the message lists, or describe yours in a JSON file
unknown-part | error | the score has no such part | it is mistyped | use one that the message lists
unknown-scale | error | there is no such scale or chord | it is mistyped | write a tonic and a kind: "C major", "D dorian"
unknown-voice | error | the part has no such voice | it is mistyped | use one that the message lists
unlisted-part | warning | a part is not in the list of parts | the file was put together by hand | nothing; it is read without a name
unpitched-notes | error | the melody has notes without a pitch | percussion has none | choose another part or voice
usage | error | the command was not typed right | an option is mistyped, takes something else, or does not go with another | do what the message says; --help lists the options
voice-chosen | note | which of several voices is arranged | the first one with notes is taken | choose with --voice
window-off-the-neck | error | the window is not on the instrument | its frets are beyond the last one, or the wrong way round | write frets that the neck has, the lower one first
window-without-measures | error | the tune has none of the measures that a window is for | their numbers are mistyped, or those of another tune | write measures that the message lists
wrong-encoding | error | the bytes are not text in the encoding they claim | the file was changed on its way, or is no text | save it as UTF-8, or export the tune again
`;

const parseRow = (line: string): CodeRow => {
  const [code = '', severity, what = '', why = '', whatToDo = ''] = line.split(' | ');
  const known = SEVERITIES.find(each => each === severity);
  if (!known || !whatToDo) throw new RangeError(`the table of codes has a bad line: ${line}`);
  return { code, severity: known, what, why, whatToDo };
};

export const CODES: readonly CodeRow[] = TABLE.trim().split('\n').map(parseRow);
