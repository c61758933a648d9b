/**
 * How a tune is laid out: how dense its systems are, how large its staff, how many pages it takes. Several
 * settings are tried, since a sheet that nearly fits a page is made to fit, and one that leaves room is
 * opened up where its systems then end with its phrases.
 */
import { type PageFrame, pageFrame, SHEETS, type SheetOptions } from './options.ts';
import { type Composition, roomOn } from './page/compose.ts';
import { fullness, paginate, type Room, type Slot } from './page/fill.ts';
import { breakQuality, breakSystems, type Line, type Lines, linesOf, overfull } from './system/break.ts';
import { type Measured, systemsOf } from './system/possible.ts';
import { type DrawnSystem, drawSystem } from './system/system.ts';

/** A way to set a tune: how dense its systems are, and the scale of the staff. */
interface Setting {
  readonly density: number;
  readonly scale: number;
}

const ORDINARY: Setting = { density: 1, scale: 1 };
/** Tried, in order, where they save a last page that would be nearly empty. */
const TIGHTER: readonly Setting[] = [
  { density: 0.88, scale: 1 },
  { density: 0.92, scale: 0.9375 },
  { density: 0.8, scale: 0.9375 },
];
/** Tried where the pages hold more than there is: learners read more easily. */
const LOOSER: readonly Setting[] = [
  { density: 1.15, scale: 1 },
  { density: 1.35, scale: 1 },
  { density: 1.6, scale: 1 },
];

/** Tried where systems break in the middle of phrases, or are very unlike each other. */
const SMALLER: readonly Setting[] = [
  { density: 1, scale: 0.9375 },
  { density: 1.6, scale: 0.9375 },
];

/** A last page emptier than this is worth saving. */
const NEARLY_EMPTY = 0.45;
/** Pages emptier than this, all together, are worth filling, … */
const ROOMY = 0.8;
/** … up to so much. */
const COMFORTABLE = 1;
/**
 * A plan is not tried where the pages would be that much fuller than they may be, as guessed from its number of
 * systems: of 580 layouts of 110 tunes none was fit whose guess was above 1.05.
 */
const OVERFULL = 1.08;
/** Breaks whose quality is below this are awkward. */
const AWKWARD = 0.15;
/** What the full size of the staff is worth beside good breaks. */
const SMALL = 0.1;
/** What a full page is worth beside breaks at the ends of phrases. */
const FILLED = 0.5;

/** Systems, and the frame that they are broken for. */
interface Plan {
  readonly frame: PageFrame;
  readonly lines: readonly Line[];
}

export interface Layout extends Plan {
  readonly composition: Composition;
  readonly reference: readonly DrawnSystem[];
  readonly slots: readonly Slot[];
  /** Where systems may stand, by page. */
  readonly room: (page: number) => Room;
  readonly pages: readonly number[];
}

function plan(
  measured: Measured,
  linesAt: (width: number) => Lines,
  options: SheetOptions,
  frame: PageFrame,
  density: number,
): Plan {
  const width = (frame.width - 2 * frame.margin) / frame.space;
  const lines = breakSystems(measured, linesAt(width), { width, density, options });
  const excess = Math.max(...lines.map(line => overfull(line, width)));
  // A measure too full for the paper makes the staff smaller.
  return excess > 1
    ? plan(measured, linesAt, options, { ...frame, space: frame.space / (excess + 0.01) }, density)
    : { frame, lines };
}

/** The lines that systems are broken from, by width: ways of setting a tune share them. */
function linesByWidth(measured: Measured): (width: number) => Lines {
  const systems = systemsOf(measured);
  const known = new Map<number, Lines>();
  return width => {
    const lines = known.get(width) ?? linesOf(systems, width);
    known.set(width, lines);
    return lines;
  };
}

type Draw = (line: Line) => DrawnSystem;

/** Draws systems with all that a sheet may hold, each but once: ways of setting a tune have many in common. */
function drawOnce(measured: Measured, options: SheetOptions): Draw {
  const drawn = new Map<string, DrawnSystem>();
  return line => {
    const key = `${line.first}-${line.last}-${line.stretch}`;
    const system = drawn.get(key) ?? drawSystem(measured, line, options, SHEETS.tab);
    drawn.set(key, system);
    return system;
  };
}

function layOut({ notation }: Measured, options: SheetOptions, { frame, lines }: Plan, draw: Draw): Layout {
  const { tune, arrangement, origins } = notation;
  const reference = lines.map(draw);
  const slots = reference.map(({ top, bottom }) => ({
    above: -top * frame.space,
    below: bottom * frame.space,
  }));
  const composition = { tune, arrangement, origins, options, frame };
  const rooms: Room[] = [];
  const room = (page: number): Room => {
    rooms[page] ??= roomOn(composition, page);
    return rooms[page];
  };
  const pages = paginate(slots, room);
  return { frame, lines, composition, reference, slots, room, pages };
}

/** How full each page is. */
const fullnesses = ({ slots, pages, room }: Layout): number[] =>
  pages.map((count, page) => {
    const from = pages.slice(0, page).reduce((before, each) => before + each, 0);
    return fullness(slots.slice(from, from + count), room(page));
  });

const mean = (numbers: readonly number[]): number =>
  numbers.reduce((sum, each) => sum + each, 0) / Math.max(1, numbers.length);

/** Which plan of several is worth most, on as many pages as the ordinary layout takes. */
function bestOf(
  measured: Measured,
  ordinary: Layout,
  plans: readonly Plan[],
  set: (planned: Plan) => Layout,
) {
  const whole = mean(fullnesses(ordinary));
  const most = Math.max(COMFORTABLE, whole + 0.02);
  const height = ({ frame, lines }: Plan) => frame.space * lines.length;
  const worth = ({ frame, lines }: Plan, full: number) =>
    breakQuality(measured, lines) + FILLED * full - (frame.space < ordinary.frame.space ? SMALL : 0);
  const asItIs = worth(ordinary, whole);
  // What a page will hold is guessed from the number of systems: only plans that promise more are drawn.
  const promising = plans
    .map(planned => ({ planned, guess: (whole * height(planned)) / height(ordinary) }))
    .filter(({ guess }) => guess <= OVERFULL * most)
    .map(({ planned, guess }) => ({ planned, promise: worth(planned, guess) }))
    .filter(({ promise }) => promise > asItIs)
    .sort((a, b) => b.promise - a.promise);
  for (const { planned } of promising) {
    const layout = set(planned);
    const full = mean(fullnesses(layout));
    const fits = layout.pages.length === ordinary.pages.length && full < most;
    if (fits && worth(layout, full) > asItIs) return layout;
  }
  return ordinary;
}

/**
 * The ordinary setting, unless a tighter one saves a nearly empty page, or another one on as many pages
 * fills them better or breaks at the ends of phrases.
 */
export function chooseLayout(measured: Measured, options: SheetOptions): Layout {
  const frame = pageFrame(options);
  const draw = drawOnce(measured, options);
  const linesAt = linesByWidth(measured);
  const planFor = ({ density, scale }: Setting) =>
    plan(measured, linesAt, options, { ...frame, space: frame.space * scale }, density);
  const set = (planned: Plan) => layOut(measured, options, planned, draw);
  const ordinary = set(planFor(ORDINARY));
  if (options.measuresPerSystem !== undefined) return ordinary;
  const mayScale = ({ scale }: Setting) => scale === 1 || options.staffSize === undefined;
  const full = fullnesses(ordinary);
  if (full.length > 1 && full.at(-1)! < NEARLY_EMPTY) {
    for (const setting of TIGHTER.filter(mayScale)) {
      const tighter = set(planFor(setting));
      if (tighter.pages.length < full.length) return tighter;
    }
  }
  const roomy = mean(full) < ROOMY;
  const looser = LOOSER.map(planFor).filter(({ lines }) => roomy || lines.length <= ordinary.lines.length);
  const opened = bestOf(measured, ordinary, looser, set);
  const awkward = breakQuality(measured, opened.lines) < AWKWARD;
  return awkward ? bestOf(measured, opened, SMALLER.filter(mayScale).map(planFor), set) : opened;
}
