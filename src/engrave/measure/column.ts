/**
 * Columns: what stands together at one moment, measured, in staff spaces around x = 0, the left edge
 * of an undisplaced head.
 */

import type { Ticks } from '../../score/model/duration.ts';
import type { NoteEvent, RestEvent } from '../../score/model/event.ts';
import type { StemDirection } from '../content/stems.ts';
import type { Mark } from '../drawing/mark.ts';

/** Rows of a system; solids of different rows never meet. */
export type Row = 'staff' | 'finger' | 'dynamic' | 'chord' | 'letter' | 'tab' | `verse ${number}`;

/** A box that other columns' boxes in its row keep away from. */
export interface Solid {
  readonly row: Row;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  /** Room asked for at the right, before the next solid of the row. */
  readonly gap: number;
  /** Room asked for at the right at the end of a system, for the hyphen that stays there. */
  readonly endGap?: number;
}

/** A note as it stands in its column, its stem open where a beam will decide its length. */
export interface NoteShape {
  readonly event: NoteEvent;
  readonly heights: readonly number[];
  /** Offset within the column: grace notes stand before it. */
  readonly dx: number;
  readonly size: number;
  readonly headWidth: number;
  readonly stem: StemDirection | undefined;
  /** Middle of the stem, from x = 0 of the column. */
  readonly stemX: number;
  /** Where the stem meets the head that is farthest from its tip. */
  readonly stemFoot: number;
  /** Its tip; for beamed notes what it would be without the beam. */
  readonly stemTip: number;
  readonly beamed: boolean;
  readonly marks: readonly Mark[];
}

export interface Syllable {
  readonly verse: number;
  /** The verse's number where it opens here, as "2."; it stands at the head of its row. */
  readonly number: string;
  readonly marks: readonly Mark[];
  readonly left: number;
  readonly right: number;
  /** Begins a word. */
  readonly opens: boolean;
  /** Joined by hyphens to the next syllable of its verse. */
  readonly hyphen: boolean;
  readonly extend: boolean;
}

export interface Column {
  readonly measure: number;
  /** From the start of the measure. */
  readonly at: Ticks;
  /** Until the next column or the end of the measure. */
  readonly duration: Ticks;
  /** Distance to the next column at natural spacing. */
  readonly ideal: number;
  /** The note or rest that starts here; absent under a chord symbol between notes. */
  readonly note: NoteShape | undefined;
  readonly rest:
    | { readonly event: RestEvent; readonly marks: readonly Mark[]; readonly width: number }
    | undefined;
  readonly graces: readonly NoteShape[];
  /** Signatures that change here, within the measure. */
  readonly change: readonly Mark[];
  /** Left-hand fingers over single notes, baseline at y = 0. */
  readonly fingers: readonly Mark[];
  /** Chord symbol, baseline at y = 0. */
  readonly chord: readonly Mark[];
  /** Baseline at y = 0. */
  readonly dynamics: readonly Mark[];
  /** Baseline at y = 0. */
  readonly syllables: readonly Syllable[];
  /** Fret figures; y = 0 is the top line of the tablature. */
  readonly digits: readonly Mark[];
  /** Middle of the undisplaced head. */
  readonly centre: number;
  readonly solids: readonly Solid[];
}
