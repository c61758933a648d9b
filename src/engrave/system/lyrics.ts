/**
 * Lyrics: one baseline a verse, its number at the head of its first row, hyphens in the middle of their gaps,
 * lines under held syllables.
 */
import type { Mark } from '../drawing/mark.ts';
import { move } from '../drawing/mark.ts';
import { depth } from '../drawing/text.ts';
import { face, textWidth } from '../font/face.ts';
import type { Syllable } from '../measure/column.ts';
import { numberRoom } from '../measure/syllables.ts';
import { STYLE } from '../style.ts';
import { headLeft, headRight, measureSpan, type PlacedSystem } from './placed.ts';
import { type Sketch, SYSTEM } from './sketch.ts';

/** First baseline where nothing hangs below the staff. */
const FIRST_BASELINE = 7.1;
const CLEARANCE = 0.55;
/** More below a row of note letters, which are words too. */
const BELOW_LETTERS = 0.95;
/** Hyphens of a long gap are this far apart at least. */
const HYPHEN_SPACING = 14;

interface Sung {
  readonly syllable: Syllable;
  readonly x: number;
  readonly measure: number;
  readonly event: number;
}

function sung({ columns }: PlacedSystem, verse: number): Sung[] {
  return columns.flatMap(({ column, x }) =>
    column.syllables
      .filter(syllable => syllable.verse === verse)
      .map(syllable => ({ syllable, x, measure: column.measure, event: column.note!.event.id })),
  );
}

/** Left edge of a syllable. */
const startOf = (one: Sung | undefined): number => (one ? one.x + one.syllable.left : Infinity);

/**
 * Right edge of the numbers of verses that open in this system: all under each other before the first word of any
 * verse, so that they say which row is which even where a verse has its first word late.
 */
function numbersEnd(system: PlacedSystem, verses: readonly number[]): number {
  const firsts = verses.map(verse => sung(system, verse)[0]);
  const rooms = firsts.map(first => numberRoom(first?.syllable.number ?? ''));
  const gap = textWidth(' ', 'serif', STYLE.lyricSize) + 0.2;
  return Math.max(Math.min(...firsts.map(startOf)), ...rooms) - gap;
}

/** Baseline of the first verse: below all ink over a number, a syllable, its hyphens and its line. */
function baseline(system: PlacedSystem, verses: readonly number[], numbers: number, sketch: Sketch): number {
  const rise =
    (face('serif').capHeight / 1000) * STYLE.lyricSize + (system.kind.letters ? BELOW_LETTERS : CLEARANCE);
  let y = FIRST_BASELINE;
  const keepClear = (left: number, right: number) => {
    y = Math.max(y, sketch.below(left - 0.2, right + 0.2, 4) + rise);
  };
  for (const verse of verses) {
    const all = sung(system, verse);
    const room = numberRoom(all[0]?.syllable.number ?? '');
    if (room > 0) keepClear(numbers - room, numbers);
    if (openSyllable(system, verse)) keepClear(system.headRight, all[0] ? startOf(all[0]) : system.width);
    all.forEach((one, i) => {
      const goesOn = one.syllable.hyphen || one.syllable.extend;
      const next = all[i + 1];
      const until = goesOn ? (next ? startOf(next) : system.width) : 0;
      keepClear(startOf(one), Math.max(one.x + one.syllable.right, until));
    });
  }
  return y;
}

const text = (string: string, x: number, y: number, anchor: 'start' | 'end' = 'start'): Mark => ({
  kind: 'text',
  role: 'lyric',
  text: string,
  face: 'serif',
  x,
  y,
  size: STYLE.lyricSize,
  anchor,
});

function hyphens(from: number, to: number, y: number): Mark[] {
  const width = textWidth('-', 'serif', STYLE.lyricSize);
  const gap = to - from;
  if (gap < width + 0.15) return [];
  const count = Math.max(1, Math.floor(gap / HYPHEN_SPACING));
  return Array.from({ length: count }, (_, i) =>
    text('-', from + (gap * (i + 1)) / (count + 1) - width / 2, y),
  );
}

/** Right side of the last note in this system that a syllable is held over; 0 where none is. */
function heldUntil(
  { notes, notation: { melismas, verses } }: PlacedSystem,
  event: number,
  verse: number,
): number {
  const end = melismas.lastEvent(event, verses[verse]!) ?? event;
  const last = notes.findLast(
    ({ shape }) => shape.event.id > event && shape.event.id <= end && shape.size === 1,
  );
  return last ? headRight(last) : 0;
}

function extender(system: PlacedSystem, one: Sung, next: Sung | undefined, y: number): Mark[] {
  const from = one.x + one.syllable.right + 0.25;
  const to = Math.min(heldUntil(system, one.event, one.syllable.verse), startOf(next) - 0.4);
  if (to - from < 0.8) return [];
  return [{ kind: 'line', role: 'lyric', x1: from, y1: y - 0.05, x2: to, y2: y - 0.05, thickness: 0.1 }];
}

/** How a verse goes on from the system before: a hyphen or a line before its first syllable here. */
function continued(system: PlacedSystem, verse: number, first: Sung | undefined, y: number): Mark[] {
  const open = openSyllable(system, verse);
  const start = system.notes[0];
  if (!open || !start) return [];
  const left = headLeft(start);
  if (open.kind === 'extend') {
    const to = Math.min(heldUntil(system, open.event, verse), startOf(first) - 0.4);
    const line = { kind: 'line', role: 'lyric', thickness: 0.1 } as const;
    return to > left ? [{ ...line, x1: left, y1: y - 0.05, x2: to, y2: y - 0.05 }] : [];
  }
  const to = first ? startOf(first) : left + 3;
  return to - left > 2.5 ? hyphens(left - 1, to, y) : [];
}

/** What the verse's last syllable before this system leaves open here. */
function openSyllable(
  system: PlacedSystem,
  verse: number,
): { kind: 'hyphen' | 'extend'; event: number } | undefined {
  const { notation, line } = system;
  const name = notation.verses[verse];
  for (let index = line.first - 1; index >= 0; index--) {
    const event = notation.tune.measures[index]!.events.findLast(
      each => each.kind === 'note' && each.lyrics.some(lyric => lyric.verse === name),
    );
    if (event?.kind !== 'note') continue;
    const { syllabic, extend } = event.lyrics.find(each => each.verse === name)!;
    if (extend)
      return heldUntil(system, event.id, verse) > 0 ? { kind: 'extend', event: event.id } : undefined;
    const hyphened = syllabic === 'begin' || syllabic === 'middle';
    return hyphened && isSung(system, verse, line.first) ? { kind: 'hyphen', event: event.id } : undefined;
  }
  return undefined;
}

/** Whether a verse is sung from a measure on. */
const isSung = ({ notation: { tune, verses } }: PlacedSystem, verse: number, from: number): boolean =>
  tune.measures
    .slice(from)
    .some(({ events }) =>
      events.some(event => event.kind === 'note' && event.lyrics.some(each => each.verse === verses[verse])),
    );

/** How far a word's hyphens reach: to its next syllable, or to the ending in which this verse has none. */
function wordGoesOnTo(system: PlacedSystem, one: Sung, next: Sung | undefined): number {
  const { measures } = system.notation.tune;
  const ending = measures.findIndex(({ left }, index) => index > one.measure && left.ending);
  if (next?.syllable.opens && ending > 0 && ending <= next.measure)
    return Math.min(measureSpan(system, ending - 1).right, startOf(next));
  return next ? startOf(next) : system.width;
}

function drawVerse(system: PlacedSystem, verse: number, numbers: number, y: number, sketch: Sketch): void {
  const all = sung(system, verse);
  const number = all[0]?.syllable.number;
  if (number) sketch.add(SYSTEM, [text(number, numbers, y, 'end')]);
  const before = continued(system, verse, all[0], y);
  if (before.length > 0) sketch.add(SYSTEM, before);
  all.forEach((one, i) => {
    const next = all[i + 1];
    const { syllable, x, measure } = one;
    const marks = move(syllable.marks, x, y);
    const right = x + syllable.right;
    if (syllable.hyphen && (next || isSung(system, verse, system.line.last + 1)))
      marks.push(...hyphens(right, wordGoesOnTo(system, one, next), y));
    else if (syllable.extend) marks.push(...extender(system, one, next, y));
    sketch.add(measure, marks);
  });
}

/**
 * Draws the lyrics. Returns their lower edge as if a letter descended, so that what is under them stands as far from
 * their last line in every system; −Infinity where there are none.
 */
export function drawLyrics(system: PlacedSystem, sketch: Sketch): number {
  const verses = system.notation.verses.map((_, verse) => verse);
  const here = verses.filter(verse => sung(system, verse).length > 0 || openSyllable(system, verse));
  if (here.length === 0) return -Infinity;
  const numbers = numbersEnd(system, here);
  const first = baseline(system, here, numbers, sketch);
  here.forEach((verse, row) => {
    drawVerse(system, verse, numbers, first + row * STYLE.verseLeading, sketch);
  });
  return first + (here.length - 1) * STYLE.verseLeading + depth('serif', STYLE.lyricSize);
}
