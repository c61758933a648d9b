/** What goes to the terminal: results to standard output, everything else to standard error. */
import type { Diagnostic, DiagnosticPlace } from '../score/diagnostic.ts';
import { measureName, momentName } from '../score/moments.ts';
import { EXIT } from './exit.ts';
import { columnsOf, withNumbers, wrapped } from './width.ts';

/** Writes text or bytes as they are to standard output; a reader that has gone away (`| head`) ends us quietly. */
export const print = (content: string | Uint8Array): void => {
  process.stdout.write(content);
};

/** Writes data as JSON to standard output. */
export const printJson = (data: unknown): void => print(`${JSON.stringify(data, null, 2)}\n`);

/** Whether standard error is for machines: `--json-errors`, wherever it stands. */
let asJson = false;

/** Writes one line to standard error, where people read it. */
export const say = (line: string): void => {
  if (!asJson) process.stderr.write(`${line}\n`);
};

export const speakJson = (): void => {
  asJson = true;
};

/**
 * Ends the program where output cannot go on: quietly when the other end of a pipe is closed, as
 * command-line tools do, and with a word when a disk is full.
 */
export const endOnClosedPipe = (): void => {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE' && stream === process.stdout) report([cannotPrint(error)], false);
      process.exit(error.code === 'EPIPE' ? EXIT.done : EXIT.refused);
    });
  }
};

const cannotPrint = ({ code }: NodeJS.ErrnoException): Diagnostic => ({
  severity: 'error',
  code: 'cannot-write',
  message: code === 'ENOSPC' ? 'the disk is full' : `it cannot be written (${code ?? 'unknown cause'})`,
  hint: 'make room, and run the command again: what was written so far is not whole',
  place: { file: 'standard output' },
});

/** Writes diagnostics; with `quiet` only errors. A hint that several share is given once. */
export const report = (diagnostics: readonly Diagnostic[], quiet: boolean): void => {
  const shown = quiet ? diagnostics.filter(each => each.severity === 'error') : diagnostics;
  shown.forEach((each, index) => {
    if (asJson) {
      process.stderr.write(`${JSON.stringify(each)}\n`);
      return;
    }
    say(onTerminal(diagnosticLine(each)));
    if (each.excerpt) say(`    | ${printable(each.excerpt)}`);
    if (each.hint && shown[index + 1]?.hint !== each.hint) say(onTerminal(`    ${printable(each.hint)}`));
  });
};

/** People read whole words; what a program reads stays on its line. */
const onTerminal = (line: string): string =>
  process.stderr.isTTY ? wrapped(withNumbers(line), columnsOf(process.stderr)) : line;

/** "tunes/a.mxl, measure 3 beat 1: warning: … (code)" */
const diagnosticLine = ({ severity, code, message, place }: Diagnostic): string => {
  const where = describePlace(place);
  return printable(`${where ? `${where}: ` : ''}${severity}: ${message} (${code})`);
};

/** Text from a file, or a file's name, without what would steer a terminal: "\n" stays on the line. */
export const printable = (text: string): string =>
  text.replace(CONTROL, character => {
    if (character === '\n') return '\\n';
    return `\\x${character.charCodeAt(0).toString(16).padStart(2, '0')}`;
  });

// biome-ignore lint/suspicious/noControlCharactersInRegex: these are what it is about.
const CONTROL = /[\u0000-\u001f\u007f-\u009f]/g;

const describePlace = (place: DiagnosticPlace | undefined): string =>
  [
    place?.file,
    place?.line !== undefined && `line ${place.line}`,
    place?.column !== undefined && `column ${place.column}`,
    place?.part !== undefined && `part ${place.part}`,
    whenOf(place),
  ]
    .filter(Boolean)
    .join(', ');

const whenOf = ({ measure, beat }: DiagnosticPlace = {}): string | undefined => {
  if (measure === undefined) return undefined;
  return beat === undefined ? measureName(measure) : momentName({ measure, beat });
};
