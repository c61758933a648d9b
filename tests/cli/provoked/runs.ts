/** Commands, files and folders: what is typed or configured wrong, and what cannot be read or written. */
import { measures, type Provocation, type Provocations, tune, whole } from './provocation.ts';

const PLAIN = measures(whole('C4'));
const SHEET = 'out/t.ukulele.tab.txt';

/** A command on a plain tune, with what lies beside it. */
const beside = (files: Provocation['files'], rest: Omit<Provocation, 'files'>): Provocation => ({
  files: { ...tune(PLAIN).files, ...files },
  ...rest,
});

const ARRANGE = 'fretward arrange t.musicxml --out out';

/** Several commands on a plain tune, of which the last one is looked at. */
const plainly = (line: string, rest: Partial<Provocation> = {}): Provocation => beside({}, { line, ...rest });

const configured = (text: string, rest: Partial<Provocation> = {}): Provocation =>
  beside(
    { 'fretward.yaml': text },
    { line: 'fretward arrange t.musicxml', at: { file: 'fretward.yaml', column: 1 }, status: 2, ...rest },
  );

export const RUNS: Provocations = {
  'cannot-read': { line: 'fretward arrange none.mxl', at: { file: 'none.mxl' } },
  'cannot-write': beside(
    { out: 'a file in the way' },
    { line: 'fretward arrange t.musicxml -s tab --out out', at: { file: 'out' } },
  ),
  'no-match': { line: "fretward arrange '*.mxl' --out out", at: { file: '*.mxl' } },
  'no-tunes-in-folder': { line: 'mkdir empty; fretward arrange empty', at: { file: 'empty' } },
  'not-a-report': {
    files: { 'a.jsonl': '{"kind": "poem"}\n' },
    line: 'fretward report a.jsonl',
    on: '{"kind": "poem"}',
    at: { file: 'a.jsonl' },
    status: 2,
  },
  'left-over': plainly(`${ARRANGE} -s tab,quiz -q && ${ARRANGE} -s tab`),
  'output-left-over': plainly(
    `${ARRANGE} -s tab,quiz -q && ${ARRANGE} -s tab -q && ${ARRANGE} -s tab --verify`,
  ),
  'output-missing': tune(PLAIN, { options: '-s tab --out out --verify', at: { file: SHEET } }),
  'output-stale': beside(
    { [SHEET]: 'an old sheet' },
    { line: 'fretward arrange t.musicxml -s tab --out out --verify', at: { file: SHEET } },
  ),
  'output-shared': plainly(`${ARRANGE} --ascii -q && ${ARRANGE} -q && ${ARRANGE} --ascii`),
  'report-cut-off': { files: { 'a.jsonl': '' }, line: 'fretward report a.jsonl', at: { file: 'a.jsonl' } },
  'share-missing': plainly(`${ARRANGE} --share 1/2 -q --report jsonl > 1.jsonl; fretward report 1.jsonl`),
  'share-repeated': plainly(`${ARRANGE} -q --report jsonl > a.jsonl; fretward report a.jsonl a.jsonl`, {
    at: { file: 'a.jsonl' },
    status: 2,
  }),
  'same-output': beside(
    { 't.xml': PLAIN },
    { line: 'fretward arrange . -s tab --out out -q', at: { file: 't.xml' } },
  ),
  usage: { line: 'fretward arrange', status: 2 },
  // Nothing that is typed or read provokes it: the machine itself is at fault here.
  fault: tune(PLAIN, {
    env: {
      NODE_OPTIONS: '--import "data:text/javascript,Math.abs=()=>{throw new Error(\'broken\')}"',
    },
    status: 3,
  }),

  'config-bad-value': configured('frets: four', { on: 'frets', at: { file: 'fretward.yaml', column: 8 } }),
  'config-broken': configured('- frets', { on: '- frets' }),
  'config-unknown-key': configured('fretts: 4-8', { on: 'fretts' }),
  'font-unreadable': beside(
    // It begins as a font does.
    { 'my.ttf': Uint8Array.of(0, 1, 0, 0, 7, 7, 7, 7) },
    { line: 'fretward arrange t.musicxml --to pdf --font my.ttf --out out', at: { file: 't.musicxml' } },
  ),
};
