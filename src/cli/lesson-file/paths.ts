/** Paths in a lesson file: meant from its folder, and kept inside the folder that it may not leave. */
import { realpathSync } from 'node:fs';
import { dirname, isAbsolute, join, relative, resolve } from 'node:path';
import { isWithin } from '../../batch/paths.ts';
import { type DiagnosticPlace, Refusal } from '../../score/diagnostic.ts';

export interface Fence {
  /** The folder of the lesson file. */
  readonly folder: string;
  /** The folder that its paths may not leave. */
  readonly within: string;
}

/** The path that a lesson means. Throws a Refusal where it leads out of the fence, by links too. */
export const insideOf = ({ folder, within }: Fence, path: string, place: DiagnosticPlace): string => {
  const meant = join(folder, path);
  if (!isAbsolute(path) && isWithin(meant, within) && isWithin(real(meant), real(within))) {
    return meant;
  }
  throw new Refusal({
    severity: 'error',
    code: 'lesson-path-outside',
    message: `${path} lies outside the folder of the lesson`,
    hint: 'put the file there, or name the folder that both are in with "within", such as "within: .."',
    place,
  });
};

/** Where a path leads with its links followed; what is not there yet, as if it were. */
export const real = (path: string): string => {
  const whole = resolve(path);
  try {
    return realpathSync(whole);
  } catch {
    const parent = dirname(whole);
    return parent === whole ? whole : join(real(parent), relative(parent, whole));
  }
};
