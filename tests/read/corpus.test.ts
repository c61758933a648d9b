/** Files that nobody on this project wrote: all are read, or refused with a reason. */
import { expect, test, vi } from 'vitest';
import { readScore } from '../../src/read/read.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import type { Score } from '../../src/score/model.ts';
import { summarise } from '../../src/score/summary.ts';
import type { Tune } from '../../src/score/tune.ts';
import { corpusBytes, corpusFiles, describeCorpus } from '../support/corpus.ts';

// Some are long, and machines may be busy.
vi.setConfig({ testTimeout: 30_000 });

/** Times are whole, in order, and add up; ties join one sound. */
const checkScore = (score: Score): void => {
  for (const part of score.parts) {
    let at = 0;
    for (const measure of part.measures) {
      expect(measure.at).toBe(at);
      at += measure.length;
      for (const voice of measure.voices) {
        let now = 0;
        for (const event of voice.events) {
          expect(Number.isSafeInteger(event.at) && Number.isSafeInteger(event.duration)).toBe(true);
          expect(event.at).toBeGreaterThanOrEqual(now);
          now = event.at + event.duration;
          if (event.kind === 'note') expect(event.heads.length).toBeGreaterThan(0);
        }
        expect(now).toBeLessThanOrEqual(measure.length);
      }
    }
  }
};

/** A tune has no holes. */
const checkTune = (tune: Tune): void => {
  for (const { events, length, number } of tune.measures) {
    let now = 0;
    for (const event of events) {
      expect([number, event.at]).toEqual([number, now]);
      now += event.duration;
    }
    expect([number, now]).toEqual([number, length]);
  }
};

describeCorpus('every tune', () => {
  test.each(corpusFiles('tunes'))('%s reads', file => {
    const { score, diagnostics } = readScore(corpusBytes('tunes', file));
    expect(diagnostics).toEqual([]);
    checkScore(score);
    const { tune } = chooseMelody(score, { chords: 'top' });
    checkTune(tune);
    expect(tune.title).toBeTruthy();
    expect(summarise(score).parts[0]!.voices[0]!.notes).toBeGreaterThan(10);
  });
});

/** The cases that have nothing to play: rests alone. */
const SILENT: Readonly<Record<string, string>> = {
  '41h-toomanyparts.xml': 'no-notes',
  '45e-repeats-nested-alternatives.xml': 'no-notes',
  '51b-header-quotes.xml': 'no-notes',
  '51c-multiplerights.xml': 'no-notes',
  '52a-pagelayout.xml': 'no-notes',
};

describeCorpus('every case of the public MusicXML test suite', () => {
  test.each(corpusFiles('reader'))('%s', file => {
    const { score } = readScore(corpusBytes('reader', file));
    checkScore(score);
    summarise(score);
    for (const chords of ['top', 'all'] as const) {
      try {
        checkTune(chooseMelody(score, { chords }).tune);
        expect(SILENT).not.toHaveProperty([file]);
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        expect(error.diagnostics[0]!.code).toBe(SILENT[file]);
        expect(error.diagnostics[0]!.hint).toBeTruthy();
      }
    }
  });
});
