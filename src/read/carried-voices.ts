/**
 * Lines that change their voice number on the way, as some programs write them from one measure, or one
 * note, to the next. A staff that nowhere has two voices at the same time, be it for a rest, has one: it
 * keeps the number with which it begins.
 */
import { hasRoom, insert, type Lane } from './voices.ts';

type Measures = readonly (readonly Lane[])[];

/** The same measures, with such lines under one number. */
export const carryOn = (measures: Measures): Measures => {
  const carriers = carriersOf(measures);
  if (carriers.size === 0) return measures;
  return measures.map(lanes => {
    const joined = new Map<string, Lane>();
    for (const lane of lanes) {
      const id = carriers.get(lane.id) ?? lane.id;
      const carrier = joined.get(id);
      if (carrier === undefined) joined.set(id, { ...lane, id });
      else for (const placed of lane.placed) insert(carrier, placed);
    }
    return [...joined.values()];
  });
};

/** For each voice that carries on another, which. */
const carriersOf = (measures: Measures): ReadonlyMap<string, string> => {
  const staffOf = new Map<string, number>();
  const crowded = new Set<number>();
  for (const lanes of measures) {
    for (const lane of lanes) {
      const staff = staffOf.get(lane.id) ?? lane.staff;
      staffOf.set(lane.id, staff);
      if (lanes.some(other => other.staff === lane.staff && overlap(lane, other))) crowded.add(staff);
    }
  }
  const firstOn = new Map<number, string>();
  const carriers = new Map<string, string>();
  for (const [id, staff] of staffOf) {
    const first = firstOn.get(staff);
    if (first === undefined) firstOn.set(staff, id);
    else if (!crowded.has(staff)) carriers.set(id, first);
  }
  return carriers;
};

const overlap = (lane: Lane, other: Lane): boolean =>
  lane !== other && !other.placed.every(({ event }) => hasRoom(lane, event));
