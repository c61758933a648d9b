/**
 * A tune and its arrangement → MusicXML, part-wise: the tune as read, with string, fret and finger on
 * every note; on one staff, or on two that are linked, notation over tablature. Written to the schema of
 * MusicXML 3.0, which every later version reads. There is no date and no machine in it: equal input gives
 * equal bytes.
 */
import type { Arrangement } from '../fingering/arrangement.ts';
import type { Instrument } from '../instrument/instrument.ts';
import type { Heading } from '../score/model.ts';
import type { Tune } from '../score/tune.ts';
import { attributesElement, clefElement } from './musicxml/attributes.ts';
import { measureElement } from './musicxml/measure.ts';
import { slurMarks, spanMarks } from './musicxml/spans.ts';
import { tabClefElement, tabStaffElement, tuningFields } from './musicxml/tab-staff.ts';
import { element, leaf, serialise, type XmlNode } from './musicxml/xml.ts';

/** How the tune is notated. */
export interface MusicXmlOptions {
  /** 1: notation with string, fret and finger marked; 2: with tablature under it. 1 if it is not said. */
  readonly staves?: 1 | 2 | undefined;
}

const DECLARATION = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 3.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
`;

/** The text of the file. Pitches sound as written here; octave clefs say how they are notated. */
export const toMusicXml = (
  tune: Tune,
  arrangement: Arrangement,
  { staves = 1 }: MusicXmlOptions = {},
): string => {
  const { placements, instrument } = arrangement;
  const context = {
    placements,
    marks: spanMarks(tune, staves),
    tablature: staves === 2 ? { placements, marks: slurMarks(tune, { lane: 1, lanes: 2 }) } : undefined,
  };
  const score = element(
    'score-partwise',
    { version: '3.0' },
    tune.title === undefined ? undefined : element('work', {}, leaf('work-title', tune.title)),
    identification(tune, instrument),
    element('part-list', {}, element('score-part', { id: PART }, leaf('part-name', tune.partName))),
    element(
      'part',
      { id: PART },
      tune.measures.map((measure, index) =>
        measureElement(measure, context, index === 0 ? opening(tune, instrument, staves) : undefined),
      ),
    ),
  );
  return DECLARATION + serialise(score);
};

const PART = 'P1';

const identification = (heading: Heading, instrument: Instrument): XmlNode => {
  const creator = (type: 'composer' | 'lyricist' | 'arranger') => leaf('creator', heading[type], { type });
  return element(
    'identification',
    {},
    creator('composer'),
    creator('lyricist'),
    creator('arranger'),
    heading.rights.map(each => leaf('rights', each)),
    element('encoding', {}, leaf('software', 'fretward')),
    element('miscellaneous', {}, tuningFields(instrument)),
  );
};

const opening = (tune: Tune, instrument: Instrument, staves: 1 | 2): XmlNode =>
  attributesElement(
    tune.measures[0]!,
    leaf('divisions', tune.division),
    staves === 1
      ? clefElement(instrument.clef)
      : [
          leaf('staves', 2),
          leaf('part-symbol', 'bracket'),
          clefElement(instrument.clef, 1),
          tabClefElement(instrument),
          tabStaffElement(instrument),
        ],
  );
