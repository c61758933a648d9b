/** Measures the inside of a measure: its columns, each with all that stands together at one moment. */
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import type { Ticks } from '../../score/model/duration.ts';
import type { MusicEvent, NoteEvent } from '../../score/model/event.ts';
import type { TuneMeasure } from '../../score/tune.ts';
import { chordPieces } from '../content/chord-name.ts';
import type { Notation } from '../content/notation.ts';
import { union } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { STYLE } from '../style.ts';
import { chordMarks } from './chord-marks.ts';
import type { Column, NoteShape } from './column.ts';
import { digitMarks } from './digits.ts';
import { dynamicX, marksBelow } from './dynamic-marks.ts';
import { fingerOver } from './finger-marks.ts';
import { noteShape } from './note-shape.ts';
import { restMarks } from './rest-marks.ts';
import { keyBlock, NOTHING, sequence, timeBlock } from './signatures.ts';
import { CHORD_GAP, solidsOf } from './solids.ts';
import { syllables } from './syllables.ts';

/** Natural room after a quarter note, and how it grows: twice the time gets 1.5 times the room. */
const QUARTER_ROOM = 4.2;
const GROWTH = Math.log2(1.5);

/** Natural distance from a note to the next, by how long it lasts. */
const idealRoom = (duration: Ticks, division: Ticks): number =>
  QUARTER_ROOM * Math.max(duration / division, 1 / 64) ** GROWTH;

/** Natural room of a multi-measure rest. */
const MULTI_REST = 10;

/** Moves a grace note's shape to its offset within the column. */
const moved = (shape: NoteShape, dx: number): NoteShape => ({
  ...shape,
  dx,
  stemX: shape.stemX + dx,
  marks: move(shape.marks, dx, 0),
});

const left = (marks: readonly Mark[]) => Math.min(0, ...marks.map(mark => bounds(mark).left));

/** Between the figures of grace notes. */
const BETWEEN_FIGURES = 0.3;

/** Sets grace notes side by side before a note, if there is one: neither heads nor figures touch. */
function setGraces(
  notation: Notation,
  events: readonly NoteEvent[],
  note: NoteShape | undefined,
): NoteShape[] {
  const shapes: NoteShape[] = [];
  const figures = (shape: NoteShape | undefined) =>
    shape && union([...digitMarks(notation, shape), ...fingerOver(notation, shape)].map(bounds));
  let next = left(note?.marks ?? []) - 0.35;
  let figure = (figures(note)?.left ?? Infinity) - BETWEEN_FIGURES;
  for (const event of [...events].reverse()) {
    const shape = noteShape(notation, event, STYLE.graceSize);
    const box = union(shape.marks.map(bounds))!;
    const right = Math.max(shape.headWidth + 0.3, shape.beamed ? 0 : box.right);
    const dx = Math.min(next - right, figure - (figures(shape)?.right ?? -Infinity));
    shapes.unshift(moved(shape, dx));
    next = dx + box.left - 0.1;
    figure = dx + (figures(shape)?.left ?? Infinity) - BETWEEN_FIGURES;
  }
  return shapes;
}

/** Signatures that change within a measure, after one moment and up to another, ending before `edge`. */
function changeMarks(
  notation: Notation,
  measure: TuneMeasure,
  after: Ticks,
  until: Ticks,
  edge: number,
): Mark[] {
  const changes = measure.changes.filter(({ at }) => at > after && at <= until);
  const before = measure.changes.findLast(({ at, key }) => at <= after && key)?.key ?? measure.key;
  const key = changes.findLast(change => change.key)?.key;
  const time = changes.findLast(change => change.time)?.time;
  const { marks, width } = sequence([
    { block: key ? keyBlock(key, notation.reading, before) : NOTHING, gap: 0 },
    { block: time ? timeBlock(time) : NOTHING, gap: 0.8 },
  ]);
  return move(marks, edge - 0.9 - width, 0);
}

interface Moment {
  readonly at: Ticks;
  readonly event: MusicEvent | undefined;
  readonly graces: readonly NoteEvent[];
  readonly symbols: readonly ChordSymbol[];
}

/** What happens at each tick of a measure. Grace notes at its very end get a moment of their own. */
function moments({ events, chordSymbols, changes, length }: TuneMeasure): Moment[] {
  const found: Moment[] = [];
  let graces: NoteEvent[] = [];
  for (const event of events) {
    if (event.kind === 'note' && event.grace) graces.push(event);
    else {
      found.push({ at: event.at, event, graces, symbols: chordSymbols.filter(({ at }) => at === event.at) });
      graces = [];
    }
  }
  if (graces.length > 0) found.push({ at: length, event: undefined, graces, symbols: [] });
  const struck = new Set(
    events.filter(event => event.kind === 'rest' || !event.grace).map(event => event.at),
  );
  // A signature may change under a held note.
  const signed = changes.filter(({ at, key, time }) => at > 0 && at < length && (key ?? time));
  const between = new Set([...chordSymbols, ...signed].map(({ at }) => at).filter(at => !struck.has(at)));
  for (const at of between)
    found.push({ at, event: undefined, graces: [], symbols: chordSymbols.filter(each => each.at === at) });
  return found.sort((a, b) => a.at - b.at);
}

const dynamicsAt = ({ directions }: TuneMeasure, moment: Ticks, centre: number): Mark[] =>
  directions
    .filter(({ kind, at }) => kind === 'dynamic' && at === moment)
    .flatMap(direction => {
      const marks = marksBelow(direction);
      return move(marks, dynamicX(marks, centre, moment), 0);
    });

/** Several symbols on one moment are set side by side, each but once. */
function chordRow(symbols: readonly ChordSymbol[]): Mark[] {
  const row: Mark[] = [];
  const seen = new Set<string>();
  for (const symbol of symbols) {
    const name = JSON.stringify(chordPieces(symbol));
    if (seen.has(name)) continue;
    seen.add(name);
    const edge = Math.max(0, ...row.map(mark => bounds(mark).right + CHORD_GAP));
    row.push(...move(chordMarks(symbol), edge, 0));
  }
  return row;
}

/** Columns of a measure, first to last. */
export function columns(notation: Notation, measure: TuneMeasure): Column[] {
  const { division } = notation.tune;
  const all = moments(measure);
  return all.map((moment, index) => {
    const { event } = moment;
    const duration = (all[index + 1]?.at ?? measure.length) - moment.at;
    // Moments between notes share out the room of the note that sounds.
    const sounding = all.slice(0, index + 1).findLast(each => each.event)?.event;
    const whole = Math.max(sounding?.duration ?? duration, duration);
    const natural = whole > 0 ? (idealRoom(whole, division) * duration) / whole : 0;
    const ideal = notation.rests.has(measure.index) ? MULTI_REST : natural;
    const note = event?.kind === 'note' ? noteShape(notation, event) : undefined;
    const rest = event?.kind === 'rest' ? { event, ...restMarks(event) } : undefined;
    const graces = setGraces(notation, moment.graces, note);
    const shapes = [...graces, ...(note ? [note] : [])];
    const edge = left(shapes.flatMap(each => each.marks));
    const change = index === 0 ? [] : changeMarks(notation, measure, all[index - 1]!.at, moment.at, edge);
    const centre = note ? note.headWidth / 2 : (rest?.width ?? 0) / 2;
    const column = {
      measure: measure.index,
      at: moment.at,
      duration,
      ideal,
      note,
      rest,
      graces,
      change,
      dynamics: dynamicsAt(measure, moment.at, centre),
      chord: chordRow(moment.symbols),
      syllables: [...(note ? syllables(notation, note.event, centre) : [])],
      fingers: shapes.flatMap(shape => fingerOver(notation, shape)),
      digits: shapes.flatMap(shape => digitMarks(notation, shape)),
      centre,
    };
    return { ...column, solids: solidsOf(column) };
  });
}
