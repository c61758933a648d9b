/** What a mark is filled with, where it is not black. */

/** `paper`: letters on black, and discs that hide a line. `shade`: an area that is pointed out. */
export type Ink = 'paper' | 'shade';

/** As #rgb. The shade survives a photocopier, and never says alone what it says. */
export const INKS: Readonly<Record<Ink, string>> = { paper: '#fff', shade: '#ddd' };
