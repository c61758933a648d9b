/** What a sheet may be asked to be. */

/** Paper sizes, mm: A4 by ISO 216, US Letter 8½ × 11 in by ANSI/ASME Y14.1. */
export const PAPERS = {
  a4: { width: 210, height: 297 },
  letter: { width: 215.9, height: 279.4 },
} as const;

/**
 * The kinds of sheet. A new kind is a new row: what stands under the notation, and what stands in or
 * beside the heads. Every kind is laid out with the room that all of them need, so that all break alike.
 */
export const SHEETS = {
  tab: { label: 'notation over tablature', tablature: 'figures', letters: false, boxes: false },
  quiz: { label: 'notation alone', tablature: 'none', letters: false, boxes: true },
  names: { label: 'notation with note letters', tablature: 'none', letters: true, boxes: false },
  blank: { label: 'notation over empty tablature', tablature: 'lines', letters: false, boxes: false },
} as const satisfies Record<string, SheetKind>;

/** What makes a kind of sheet. */
export interface SheetKind {
  readonly label: string;
  readonly tablature: 'figures' | 'lines' | 'none';
  /** Note letters under the staff. */
  readonly letters: boolean;
  /** Boxes to write letters in, where they are asked for. */
  readonly boxes: boolean;
}

/** The name of a kind of sheet, as `--sheets` takes it. */
export type SheetName = keyof typeof SHEETS;

/** What a sheet is to show, and on which paper; all but the kind has a default. */
export interface SheetOptions {
  readonly sheet: SheetName;
  readonly paper?: keyof typeof PAPERS;
  readonly landscape?: boolean;
  /** All four margins, mm; at least 12.7 is printed by every machine. */
  readonly margin?: number;
  /** Height of the five lines, mm. */
  readonly staffSize?: number;
  /** Instead of the tune's own; an empty text leaves the line out. */
  readonly title?: string;
  readonly subtitle?: string;
  readonly footer?: string;
  readonly measuresPerSystem?: number;
  /** Break where the file asks for a break. */
  readonly keepBreaks?: boolean;
  /** Left-hand fingers beside the heads: none, where the position changes, or all. */
  readonly fingers?: 'none' | 'changes' | 'all';
  /** Roman numerals where the position changes. */
  readonly positions?: boolean;
  /** Small boxes over the notes to write their letters in (on a quiz). */
  readonly letterBoxes?: boolean;
}

/** The page's measures in mm, defaults filled in. */
export interface PageFrame {
  readonly width: number;
  readonly height: number;
  readonly margin: number;
  /** Millimetres a staff space. */
  readonly space: number;
}

const DEFAULT_MARGIN = 15;
/** A staff for learners: 8 mm. */
const DEFAULT_STAFF = 8;

export function pageFrame({
  paper = 'a4',
  landscape,
  margin = DEFAULT_MARGIN,
  staffSize = DEFAULT_STAFF,
}: SheetOptions): PageFrame {
  const { width, height } = PAPERS[paper];
  return {
    width: landscape ? height : width,
    height: landscape ? width : height,
    margin,
    space: staffSize / 4,
  };
}
