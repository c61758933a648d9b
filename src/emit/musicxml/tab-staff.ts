/**
 * What a tablature staff says of itself: clef, lines, tuning, capo (MusicXML 3.0, `staff-details`). Its
 * lines are counted from the bottom, strings from the top: line 1 is the last string.
 */
import type { Instrument } from '../../instrument/instrument.ts';
import { type Pitch, typedName } from '../../score/pitch.ts';
import { element, leaf, type XmlNode } from './xml.ts';

/** The clef of the tablature. */
export const tabClefElement = ({ strings }: Instrument): XmlNode =>
  element('clef', { number: TAB_STAFF }, leaf('sign', 'TAB'), leaf('line', clefLine(strings.length)));

/** The number of the staff that holds tablature. */
export const TAB_STAFF = 2;

/** The standard puts the clef on line 5 of six: the line under the top one, as far as there is one. */
const clefLine = (lines: number): number => Math.max(1, lines - 1);

/** Lines and tuning of the tablature. */
export const tabStaffElement = ({ strings, capo }: Instrument): XmlNode =>
  element(
    'staff-details',
    { number: TAB_STAFF },
    leaf('staff-type', 'alternate'),
    leaf('staff-lines', strings.length),
    [...strings].reverse().map((pitch, index) => tuningElement(pitch, index + 1)),
    capo === 0 ? undefined : leaf('capo', capo),
  );

const tuningElement = ({ step, alter, octave }: Pitch, line: number): XmlNode =>
  element(
    'staff-tuning',
    { line },
    leaf('tuning-step', step),
    alter === 0 ? undefined : leaf('tuning-alter', alter),
    leaf('tuning-octave', octave),
  );

/** Without a tablature staff, string numbers need to be told of which strings: "A4 E4 C4 G4", string 1 first. */
export const tuningFields = ({ name, strings, capo }: Instrument): readonly XmlNode[] => {
  const field = (title: string, text: string | number) => leaf('miscellaneous-field', text, { name: title });
  return [
    field('instrument', name),
    field('strings', strings.map(typedName).join(' ')),
    ...(capo === 0 ? [] : [field('capo', capo)]),
  ];
};
