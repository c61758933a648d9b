/**
 * A compressed MusicXML file: a ZIP archive that begins with its own media type, stored as it is, and
 * whose META-INF/container.xml names the score (MusicXML 4.0, "Compressed .mxl files"). Dates in it are
 * the earliest that an archive can hold: equal input gives equal bytes.
 */
import { strToU8, type Zippable, zipSync } from 'fflate/browser';
import type { Arrangement } from '../../fingering/arrangement.ts';
import type { Tune } from '../../score/tune.ts';
import { type MusicXmlOptions, toMusicXml } from '../musicxml.ts';
import { element, serialise } from './xml.ts';

const MEDIA_TYPES = {
  archive: 'application/vnd.recordare.musicxml',
  score: 'application/vnd.recordare.musicxml+xml',
} as const;

const SCORE = 'score.musicxml';

/** Archives hold local time, without saying where. No time zone skips noon. */
const earliest = (): Date => new Date(1980, 0, 1, 12);

/** The bytes of the archive. */
export const toMxl = (tune: Tune, arrangement: Arrangement, options: MusicXmlOptions = {}): Uint8Array => {
  const files: Zippable = {
    mimetype: [strToU8(MEDIA_TYPES.archive), { level: 0 }],
    'META-INF/container.xml': strToU8(CONTAINER),
    [SCORE]: strToU8(toMusicXml(tune, arrangement, options)),
  };
  return zipSync(files, { level: 9, mtime: earliest() });
};

const CONTAINER = `<?xml version="1.0" encoding="UTF-8"?>\n${serialise(
  element(
    'container',
    {},
    element('rootfiles', {}, element('rootfile', { 'full-path': SCORE, 'media-type': MEDIA_TYPES.score })),
  ),
)}`;
