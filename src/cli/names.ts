/** What a file is by its name. */

/** Whether a name ends as those of lesson files do. */
export const isLessonFile = (name: string): boolean => /\.ya?ml$/i.test(name);

/** Whether a name ends as those of tunes do. */
export const isTuneFile = (name: string): boolean => /\.(musicxml|mxl|xml)$/i.test(name);
