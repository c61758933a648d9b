/** `fretward arrange`: tunes to sheets. */
import { basename } from 'node:path';
import { isTuneFile } from '../../batch/paths.ts';
import { runTune } from '../../batch/run.ts';
import { atOptions } from '../../batch/said.ts';
import { dealt } from '../../batch/shares.ts';
import { CONFIG_NAME } from '../config/find.ts';
import { print, report } from '../console.ts';
import { takesTunes } from '../define.ts';
import { EXIT } from '../exit.ts';
import { deliver } from '../output.ts';
import { REQUEST_NAMES, type Request, readRequest } from '../request.ts';
import { inFolder } from '../run/start.ts';

const FLAGS_OFF =
  'What fretward.yaml switches on, --no- before its name switches off: --no-match.\n(fretward config --help says what that file is.)';

const EXAMPLES = `  fretward arrange tune.mxl -i ukulele-low-g -f 4-8
      tablature in the terminal, every note inside frets 4 to 8
  fretward arrange tune.mxl -i ukulele,ukulele-low-g -f 4-8 --to svg -o sheets/
      printed sheets for high-G and low-G students
  fretward arrange tune.mxl --tuning "D4 G4 B4 E5" --capo 2 --open never
      another tuning, a capo, no open strings
  fretward arrange tune.mxl -f 5-8 --outside refuse
      do not arrange a tune that does not fit
  fretward arrange tune.mxl -f 1-16:4-8,17-32:10-15 --one-place
      a window for each half; every pitch always in the same place
  fretward arrange tune.mxl -i ukulele-low-g,ukulele -f 4-8 --match --transpose best
      two editions in the best key, alike wherever they can be
  fretward arrange tune.mxl -i ukulele -f 5-9 --transpose G
      in G, the nearest way; a tune in E minor goes to G minor
  fretward arrange tunes/ --to svg,musicxml --out out/
      a folder of tunes, searched to the bottom; again, what has changed
  fretward arrange "tunes/**/*.mxl" --to pdf -o out/ --report jsonl > all.jsonl
      a glob, and a line of JSON on each tune
  fretward arrange tunes/ --to pdf --out out/ --verify
      in a build: fail if a sheet is missing or out of date
  fretward arrange tunes/ --to pdf --out out/ --watch
      stay, and make sheets anew when a tune changes
  fretward arrange - --to svg --sheets tab --out - < tune.musicxml > tab.svg
      one sheet, from standard input to standard output`;

export const define = takesTunes({ options: REQUEST_NAMES, notes: FLAGS_OFF, examples: EXAMPLES });

/** Arranges every tune and answers the exit status. */
export const run = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const request = await readRequest(tunes, typed);
  if (request.destination.kind !== 'folder') return show(request);
  const { tuneRun } = await import('../run/tunes.ts');
  return inFolder(await tuneRun(request), {
    words: tunes,
    begins: path => isTuneFile(path) || basename(path) === CONFIG_NAME,
    except: request.destination.path,
    renew: async () => tuneRun(await readRequest(tunes, typed)),
  });
};

/** Writes one tune after the other to standard output. */
const show = async ({ inputs, jobFor, saidAt, destination, options }: Request): Promise<number> => {
  const quiet = options.quiet ?? false;
  let status: number = EXIT.done;
  let shown = false;
  for (const input of dealt(inputs, options.share)) {
    const outcome = await runTune(input, await jobFor(input));
    report(atOptions(saidAt(input), outcome.diagnostics), quiet);
    if (outcome.kind === 'arranged') {
      if (shown) print('\n');
      deliver(outcome.outputs, destination, quiet);
      shown = true;
    }
    if (outcome.kind === 'fault') status = EXIT.fault;
    else if (outcome.kind === 'refused' || outcome.leftOut.length > 0)
      status = Math.max(status, EXIT.refused);
  }
  return status;
};
