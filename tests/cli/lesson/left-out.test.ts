/** A lesson of which an edition cannot be made. */
import { readFileSync } from 'node:fs';
import * as mupdf from 'mupdf';
import { describe, expect, it } from 'vitest';
import { MICHAEL, ROW, terminal } from '../terminal.ts';

describe('a lesson of which an edition cannot be made', () => {
  const reason = 'B3 cannot be played on Ukulele, high G: pickup beat 1';

  it('has all sheets of the other one; message, page and booklet say what is missing', async () => {
    const here = terminal(MICHAEL);
    const lesson = `tune: ${MICHAEL}.musicxml\nfrets: 4-8\ntranspose: -1\nparts: [scale, quiz]\n`;
    here.write('a.yaml', `${lesson}instrument: [ukulele, ukulele-low-g]\n`);
    const line = 'fretward lesson a.yaml';
    const { stdout, stderr, status } = await here.run(line);
    expect(status).toBe(1);
    expect(stderr).toContain(`beat 1: error: ukulele is left out: ${reason}`);
    const made = ['booklet.pdf', 'mid', 'quiz.pdf', 'scale.pdf'].map(end => `a.ukulele-low-g.${end}`);
    expect(here.files('a')).toEqual([...made, 'index.html']);
    expect(stdout.trim().split('\n').sort()).toEqual(here.files('a').map(file => `a/${file}`));

    const page = here.read('a/index.html');
    expect(page).toContain('<a href="#edition-ukulele">Ukulele, high G</a>');
    expect(page).toContain(`There are no sheets for Ukulele, high G:</p>`);
    expect(page).toContain(reason);
    const links = [...page.matchAll(/href="([^"#][^"]*)"/g)].map(match => match[1]);
    expect(links.sort()).toEqual(made);

    const booklet = readFileSync(here.path('a/a.ukulele-low-g.booklet.pdf'));
    const cover = mupdf.Document.openDocument(booklet, 'application/pdf').loadPage(0);
    const words = cover.toStructuredText('preserve-whitespace').asText().replace(/\s+/g, ' ');
    expect(words).toContain(`There are no sheets for Ukulele, high G: – ${reason}`);

    // It is not forgotten when the sheets are up to date.
    for (const again of [line, `${line} --verify`]) {
      expect(await here.run(again)).toEqual({ stdout: '', stderr, status: 1 });
    }
    // What is made is what is made without the other edition, but for what is said of it.
    here.write('b/a.yaml', `${lesson.replace('tune: ', 'within: ..\ntune: ../')}instrument: ukulele-low-g\n`);
    await here.run('fretward lesson b/a.yaml');
    expect(
      (await here.run('for f in mid quiz.pdf scale.pdf; do cmp {a,b/a}/a.ukulele-low-g.$f; done')).stdout,
    ).toBe('');
  });

  it('is counted among several', async () => {
    const here = terminal(MICHAEL, ROW);
    here.write(
      'a.yaml',
      `{tune: ${MICHAEL}.musicxml, transpose: -1, instrument: 'ukulele, ukulele-low-g', parts: quiz}`,
    );
    here.write('b.yaml', `{tune: ${ROW}.musicxml, parts: quiz}`);
    const { stderr, status } = await here.run('fretward lesson a.yaml b.yaml');
    expect(status).toBe(1);
    expect(stderr).toContain('2 lessons: 2 written; 1 without one of the editions\n');
  });
});
