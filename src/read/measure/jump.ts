/** D.C., D.S., to coda, Fine: by what `<sound>` says, or by the words alone. */
import type { Direction } from '../../score/model/direction.ts';
import { attribute, type XmlElement } from '../xml/element.ts';

/** A jump, as the model has it. */
export type Jump = (Direction & { readonly kind: 'jump' })['jump'];

/** What is printed where the file has the jump but no words; and words that mean it without a `<sound>`. */
export const JUMPS: Readonly<Record<Jump, { readonly text: string; readonly words: RegExp }>> = {
  dacapo: { text: 'D.C.', words: /^(d\.? ?c\.?|da capo)( |$)/i },
  dalsegno: { text: 'D.S.', words: /^(d\.? ?s\.?|dal segno)( |$)/i },
  tocoda: { text: 'To Coda', words: /^to coda( |$)/i },
  fine: { text: 'Fine', words: /^fine\.?$/i },
};

const NAMES = Object.keys(JUMPS) as readonly Jump[];

/** Read from the tree: the library looks for a misspelt `dacapo`. */
export const jumpInSound = (sound: XmlElement | undefined): Jump | undefined =>
  sound &&
  NAMES.find(name => {
    const value = attribute(sound, name);
    return value !== undefined && value !== 'no';
  });

/** The jump that printed words mean, if they mean one. */
export const jumpInWords = (words: string): Jump | undefined =>
  NAMES.find(name => JUMPS[name].words.test(words));
