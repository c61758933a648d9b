/** Starts a run that fills folders: once, or, with `--watch`, again and again. What it needs is loaded here. */
import type { Run } from './folder.ts';
import type { Watched } from './watch.ts';

/** Runs and answers the exit status. */
export const inFolder = async (run: Run, watched: Watched): Promise<number> => {
  if (run.options.watch) {
    const { watch } = await import('./watch.ts');
    return watch(run, watched);
  }
  const [{ runFolder }, { Interruption }] = await Promise.all([
    import('./folder.ts'),
    import('./interruption.ts'),
  ]);
  return runFolder(run, new Interruption());
};
