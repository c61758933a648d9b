/** What goes to the terminal: results to standard output, everything else to standard error. */
import type { Diagnostic, Place } from '../score/diagnostic.ts';

/** Writes text or bytes as they are to standard output; a reader that has gone away (`| head`) ends us quietly. */
export const print = (content: string | Uint8Array): void => {
  process.stdout.write(content);
};

/** Writes one line to standard error. */
export const say = (line: string): void => {
  process.stderr.write(`${line}\n`);
};

/** Ends the program when the other end of a pipe is closed, as command-line tools do. */
export const endOnClosedPipe = (): void => {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (error: NodeJS.ErrnoException) => {
      process.exit(error.code === 'EPIPE' ? 0 : 3);
    });
  }
};

/** Writes diagnostics; with `quiet` only errors. A hint that several share is given once. */
export const report = (diagnostics: readonly Diagnostic[], quiet: boolean): void => {
  const shown = quiet ? diagnostics.filter(each => each.severity === 'error') : diagnostics;
  shown.forEach((each, index) => {
    say(diagnosticLine(each));
    if (each.hint && shown[index + 1]?.hint !== each.hint) say(`    ${each.hint}`);
  });
};

/** "tunes/a.mxl, measure 3, beat 1: warning: … (code)" */
export const diagnosticLine = ({ severity, code, message, place }: Diagnostic): string => {
  const where = describePlace(place);
  return `${where ? `${where}: ` : ''}${severity}: ${message} (${code})`;
};

const describePlace = (place: Place | undefined): string =>
  [
    place?.file,
    place?.line !== undefined && `line ${place.line}`,
    place?.part !== undefined && `part ${place.part}`,
    place?.measure !== undefined && `measure ${place.measure}`,
    place?.beat !== undefined && `beat ${Math.round(place.beat * 100) / 100}`,
  ]
    .filter(Boolean)
    .join(', ');
