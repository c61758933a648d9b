/**
 * How time grows with the length of a tune, from file to sheets, in one run: `npm run bench`. Nothing is
 * asserted; 11 is the target for ten times the measures.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { toMusicXml } from '../../src/emit/musicxml.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import { rulesFrom } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { inFolder, line, PROGRAM, usage } from './run.ts';
import { walk } from './walk.ts';

const NOTES = [10_000, 100_000];

inFolder(folder => {
  const took = NOTES.map(notes => {
    const tune = walk(notes, { low: 60, top: 10 });
    const { arrangement } = arrange(tune, findInstrument('ukulele'), rulesFrom({ repeats: 'free' }));
    const path = join(folder, `${notes}.musicxml`);
    writeFileSync(path, toMusicXml(tune, arrangement, { staves: 1 }));
    const options = ['-i', 'ukulele', '--free-repeats', '--to', 'svg', '-s', 'tab,quiz', '--no-config', '-q'];
    return usage([PROGRAM, 'arrange', path, ...options, '--out', join(folder, `${notes}`)]);
  });
  console.log('A tune to two SVG sheets, end to end:');
  line(
    `${NOTES[1]} notes for ${NOTES[0]} (11 is the target)`,
    took[1]!.wall / took[0]!.wall,
    `${took[1]!.wall.toFixed(1)} s, ${took[1]!.memory.toFixed(0)} MB`,
  );
});
