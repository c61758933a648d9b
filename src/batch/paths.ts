/** What a path says without a look at the disk: of which kind a file is, and in which folder it lies. */
import { extname, isAbsolute, relative, resolve, sep } from 'node:path';

/** How the names of tunes end. */
export const TUNE_ENDINGS: readonly string[] = ['.musicxml', '.xml', '.mxl'];

/** Whether a file's name says that it is MusicXML. */
export const isTuneFile = (path: string): boolean => TUNE_ENDINGS.includes(extname(path).toLowerCase());

/** Whether a file's name ends as those of lesson files do. */
export const isLessonFile = (path: string): boolean => /\.ya?ml$/i.test(path);

/** Whether what names an instrument is a file that describes one, and no name of the catalogue. */
export const isInstrumentFile = (name: string): boolean => name.endsWith('.json');

/** Whether a path is a folder, or lies in it. */
export const isWithin = (path: string, folder: string): boolean => {
  const way = relative(resolve(folder), resolve(path));
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
};
