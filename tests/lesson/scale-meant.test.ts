/** A scale with a slip in its name: the one that is meant is offered, and can be read. */
import { expect, it } from 'vitest';
import { scaleNotes } from '../../src/lesson/scale/notes.ts';
import { refused } from '../support/musicxml.ts';

const hintFor = (name: string): string => refused(() => scaleNotes(name))[0]!.hint ?? '';

it.each([
  ['C majr', 'C major'],
  ['C#mnior', 'C# minor'],
  ['bb mionr', 'Bb minor'],
  ['G mixolydain', 'G mixolydian'],
  ['f-sharp harmonc minor', 'F# harmonic minor'],
  ['A minor pentatonc', 'A minor pentatonic'],
  ['G7 arpegio', 'G7 arpeggio'],
  ['minor A', 'A minor'],
  ['dorian in D', 'D dorian'],
])('%s: %s', (typed, meant) => {
  expect(hintFor(typed)).toContain(`is "${meant}" meant? write a tonic and a kind`);
  expect(() => scaleNotes(meant)).not.toThrow();
});

it.each(['H major', 'C jazz', 'melodic minor', '', 'qwertyuiop'])('nothing is offered for "%s"', typed => {
  expect(hintFor(typed)).toMatch(/^write a tonic/);
});
