/** What keeps words that people type out of tonal's dictionaries, which are plain objects. */

/** Whether a word is the name of what every object has, such as "constructor": tonal would take that for music. */
export const isForeign = (word: string): boolean =>
  [word, word.toLowerCase()].some(each => each in Object.prototype);
