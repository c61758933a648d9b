/**
 * The output formats: one row each. Adding a format is a new emitter file and a row here; help texts,
 * file names and errors are made from the rows. Emitters are loaded when they are used.
 */
import type { SheetName, SheetOptions } from '../engrave/options.ts';
import type { Arrangement } from '../fingering/arrangement.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import type { Tune } from '../score/tune.ts';
import type { Practice } from './midi.ts';
import { PAGE_WRITERS, type PageFormat, type Rendered } from './pages.ts';
import type { Paint } from './text/row.ts';
import type { FontFile } from './type/font-file.ts';

/** What a teacher may say about the look of sheets. */
export interface SheetStyle {
  /** Columns of a text sheet. */
  readonly width: number;
  /** Text sheets in 7-bit characters only. */
  readonly ascii: boolean;
  /** Colours text for a terminal; the identity elsewhere. */
  readonly paint: Paint;
  /** Pixels an inch of pictures. */
  readonly dpi: number;
  /** Pictures without their white paper. */
  readonly transparent: boolean;
  /** A font for characters that the carried ones lack. */
  readonly font: FontFile | undefined;
  /** How printed sheets are laid out, and what is shown of the left hand. */
  readonly layout: Omit<SheetOptions, 'sheet'>;
  /** What a practice track is to be like. */
  readonly practice?: Practice;
  /** Staves of MusicXML: notation alone, or tablature under it; 1 if it is not said. */
  readonly staves?: 1 | 2 | undefined;
}

/** A row of the table. */
export interface Format {
  readonly name: string;
  /** File extension without the dot. */
  readonly extension: string;
  /** What help says about it. */
  readonly summary: string;
  /** One output for each sheet, or one for the whole edition, whatever the sheets. */
  readonly per: 'sheet' | 'edition';
  readonly render: (
    tune: Tune,
    arrangement: Arrangement,
    sheet: SheetName,
    style: SheetStyle,
    /** What reading and arranging had to say, for formats that hold it. */
    said?: readonly Diagnostic[],
  ) => Promise<Rendered>;
}

/** Every format, in the order in which help lists them. */
export const FORMATS: readonly Format[] = [
  {
    name: 'text',
    extension: 'txt',
    summary: 'sheets in fixed-pitch characters',
    per: 'sheet',
    render: async (tune, arrangement, sheet, style) => {
      const { toText } = await import('./text.ts');
      return { pages: [toText(tune, arrangement, { ...style, ...style.layout, sheet })], diagnostics: [] };
    },
  },
  {
    name: 'svg',
    extension: 'svg',
    summary: 'printed sheets, one file a page',
    per: 'sheet',
    render: printed('svg'),
  },
  {
    name: 'pdf',
    extension: 'pdf',
    summary: 'printed sheets, all pages in one file',
    per: 'sheet',
    render: printed('pdf'),
  },
  {
    name: 'png',
    extension: 'png',
    summary: 'pictures of printed sheets, one file a page',
    per: 'sheet',
    render: printed('png'),
  },
  {
    name: 'musicxml',
    extension: 'musicxml',
    summary: 'the tune with string, fret and fingering marks',
    per: 'edition',
    render: async (tune, arrangement, _sheet, style) => {
      const { toMusicXml } = await import('./musicxml.ts');
      return { pages: [toMusicXml(tune, arrangement, style)], diagnostics: [] };
    },
  },
  {
    name: 'mxl',
    extension: 'mxl',
    summary: 'the same, compressed',
    per: 'edition',
    render: async (tune, arrangement, _sheet, style) => {
      const { toMxl } = await import('./musicxml/mxl.ts');
      return { pages: [toMxl(tune, arrangement, style)], diagnostics: [] };
    },
  },
  {
    name: 'json',
    extension: 'json',
    summary: 'the arrangement for other programs, by the schema that "fretward schema arrangement" prints',
    per: 'edition',
    render: async (tune, arrangement, _sheet, _style, said) => {
      const { toJson } = await import('./json.ts');
      return { pages: [toJson(tune, arrangement, said)], diagnostics: [] };
    },
  },
  {
    name: 'midi',
    extension: 'mid',
    summary: 'a practice track with a count-in, repeats played out',
    per: 'edition',
    render: async (tune, { instrument }, _sheet, { practice }) => {
      const { toMidi } = await import('./midi.ts');
      const { bytes, diagnostics } = toMidi(tune, instrument, practice);
      return { pages: [bytes], diagnostics };
    },
  },
];

/** Engraves a sheet and writes its pages. */
function printed(format: PageFormat): Format['render'] {
  return async (tune, arrangement, sheet, style) => {
    const { engrave } = await import('../engrave/engrave.ts');
    const { pages, diagnostics } = engrave(tune, arrangement, { ...style.layout, sheet });
    const written = await PAGE_WRITERS[format](pages, style);
    return { pages: written.pages, diagnostics: [...diagnostics, ...written.diagnostics] };
  };
}

/** The format of that name; the name has been checked before. */
export const formatNamed = (name: string): Format => {
  const format = FORMATS.find(each => each.name === name);
  if (!format) throw new RangeError(`no format ${name}`);
  return format;
};
