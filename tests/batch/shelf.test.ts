/** What is left over of a tune in a folder that several commands fill. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { claimed, EMPTY, everMade, leftOver, type Memo, put, type Shelf } from '../../src/batch/shelf.ts';

/** Files as "name=content"; the name alone is its content, too. */
const memo = (files: string, source = 'tune.mxl'): Memo => {
  const named = files.split(' ').map(each => each.split('=') as [string, string?]);
  return {
    file: source,
    source,
    input: '',
    kind: 'arranged',
    asked: named.map(([name]) => name),
    outputs: named.map(([name, hash = name]) => ({ name, hash, size: 1 })),
    diagnostics: [],
    editions: [],
    leftOut: [],
  };
};

const all = (...steps: readonly (readonly [job: string, files: string])[]): Shelf =>
  steps.reduce((shelf, [job, files]) => put(shelf, job, memo(files)).shelf, EMPTY);

const left = (shelf: Shelf): readonly string[] => leftOver(shelf, () => true);

describe('what is left over', () => {
  it('is what a command does not make when it is asked otherwise', () => {
    expect(left(all(['both', 'tab low-tab'], ['one', 'tab']))).toEqual(['low-tab']);
    expect(left(all(['both', 'tab low-tab'], ['one', 'tab'], ['both', 'tab low-tab']))).toEqual([]);
  });

  it('is not what a command makes that shares no file with it', () => {
    expect(left(all(['svg', 'tab.svg'], ['pdf', 'tab.pdf'], ['svg', 'tab.svg']))).toEqual([]);
  });

  it('is what an edition was before it was refused, and comes back with it', () => {
    const before = put(EMPTY, 'job', memo('tab low-tab')).shelf;
    const refused = put(before, 'job', { ...memo('tab low-tab'), outputs: memo('tab').outputs }).shelf;
    expect(left(refused)).toEqual(['low-tab']);
    expect(left(put(refused, 'job', memo('tab low-tab')).shelf)).toEqual([]);
  });

  it('is all of a tune that is refused under other options', () => {
    const refused: Memo = { ...memo('tab quiz'), kind: 'refused', outputs: [] };
    expect(left(put(all(['job', 'tab quiz']), 'other', refused).shelf)).toEqual(['tab', 'quiz']);
  });

  it('is all that a tune had which is gone', () => {
    const shelf = all(['svg', 'tab.svg'], ['pdf', 'tab.pdf']);
    expect(leftOver(shelf, () => false)).toEqual(['tab.svg', 'tab.pdf']);
  });

  it('is not what a command still has that comes again', () => {
    const shelf = all(['both', 'tab low-tab'], ['one', 'tab']);
    expect(left(claimed(shelf, 'both', 'tune.mxl'))).toEqual([]);
  });

  it('never is what was made last, nor is anything forgotten that was made', () => {
    const files = fc.uniqueArray(fc.constantFrom('a', 'b', 'c', 'd'), { minLength: 1 });
    const step = fc.record({
      job: fc.constantFrom('1', '2', '3'),
      files,
      content: fc.constantFrom('x', 'y'),
    });
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 12 }), steps => {
        let shelf = EMPTY;
        const made = new Set<string>();
        for (const { job, files, content } of steps) {
          const now = memo(files.map(name => `${name}=${content}`).join(' '));
          shelf = put(shelf, job, now).shelf;
          for (const name of files) {
            made.add(name);
            expect(left(shelf)).not.toContain(name);
          }
          expect(new Set(everMade(shelf))).toEqual(made);
          // Two that are both up to date agree on every file that both have.
          const contents = new Set(
            Object.values(shelf.made).flatMap(each =>
              each.outputs.map(({ name, hash }) => `${name} ${hash}`),
            ),
          );
          expect(contents.size).toBe(new Set([...contents].map(each => each.split(' ')[0])).size);
        }
      }),
      { numRuns: 500 },
    );
  });
});

describe('files that are written over in turn', () => {
  it('are told when a command comes again, and not when it is asked otherwise', () => {
    const first = put(all(['low', 'tab=low']), 'high', memo('tab=high'));
    expect(first.inTurn).toEqual([]);
    expect(put(first.shelf, 'low', memo('tab=low')).inTurn).toEqual(['tab']);
  });

  it('are told at once where they are made of another tune', () => {
    const { rivals } = put(all(['job', 'tab=one quiz']), 'job', memo('tab=two quiz', 'other/tune.mxl'));
    expect(rivals).toEqual([{ source: 'tune.mxl', files: ['tab'] }]);
  });
});
