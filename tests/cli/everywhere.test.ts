/**
 * The same bytes everywhere: the examples in every format, and a lesson, built in two worlds that differ in
 * locale, time zone, clock, mask of permissions, home, terminal, working folder and number of jobs.
 */
import { cpSync, mkdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import { FORMATS } from '../../src/emit/formats.ts';
import { MICHAEL, type Terminal, TUNES, terminal } from './terminal.ts';

const ALL = FORMATS.map(each => each.name);

/** A clock that stands still, long ago. */
const CLOCK = `--import "data:text/javascript,const D=Date;globalThis.Date=class extends D{constructor(...a){super(...(a.length&&a||[0]))}static now(){return 0}}"`;

const WORLDS = {
  here: { cwd: '.', up: '.', mask: '022', jobs: 1, locale: 'C.UTF-8', env: { TZ: 'UTC' } },
  there: {
    cwd: 'deep/down',
    up: '../..',
    mask: '077',
    jobs: 3,
    locale: 'tr_TR.UTF-8',
    env: {
      TZ: 'Pacific/Kiritimati',
      COLUMNS: '33',
      TERM: 'dumb',
      HOME: '/nowhere',
      NODE_OPTIONS: CLOCK,
    },
  },
} as const;

const withExamples = (): Terminal => {
  const term = terminal();
  cpSync(TUNES, term.path('tunes'), { recursive: true });
  mkdirSync(term.path('deep/down'), { recursive: true });
  term.write(
    'monday.yaml',
    `tune: tunes/${MICHAEL}.musicxml
instrument: [ukulele-low-g, ukulele]
frets: 4-8
parts: [scale, quiz, names, blank, tab, chords, neck, cues, drill]
to: [${ALL.filter(name => name !== 'text').join(', ')}]
`,
  );
  return term;
};

it('makes the same files and says the same in another world', { timeout: 180_000 }, async () => {
  const term = withExamples();
  const said: string[] = [];
  for (const [world, { cwd, up, mask, jobs, locale, env }] of Object.entries(WORLDS)) {
    const out = `${up}/${world}`;
    const { stdout, stderr, status } = await term.run(
      // Bash would complain of a locale that is not installed; node brings its own.
      `umask ${mask}; as() { LC_ALL=${locale} env "$@"; }; as fretward arrange ${up}/tunes -i ukulele,guitar -f 4-8 --to ${ALL.join(',')} --out ${out}/tunes -j ${jobs} &&
       as fretward lesson ${up}/monday.yaml --out ${out}`,
      { cwd, env },
    );
    expect(status, stderr).toBe(0);
    said.push(`${stdout}${stderr}`.replaceAll('../', '').replaceAll(`${world}/`, 'out/'));
  }
  expect(said[1]).toBe(said[0]);
  expect(await term.run("diff -r -x '.fretward*' here there")).toMatchObject({ stdout: '', status: 0 });
  const endings = new Set(term.files('here').map(name => name.slice(name.lastIndexOf('.') + 1)));
  expect([...endings].sort()).toEqual([...FORMATS.map(each => each.extension), 'html'].sort());
});
