/** The page of a lesson in a browser. */
import { describe, expect, it } from 'vitest';
import { browser, hasBrowser } from '../../support/browser.ts';
import { ROW, terminal } from '../terminal.ts';
import { withExamples } from './examples.ts';

describe.skipIf(!hasBrowser)('the page of a lesson in a browser', () => {
  it.each([
    ['on a phone', 390, 844],
    ['on a desk', 1280, 900],
  ])('shows every sheet %s, and asks for nothing', { timeout: 60_000 }, async (_, width, height) => {
    const here = withExamples();
    await here.run('fretward lesson lessons/two-windows.yaml --out out -q');
    const context = await browser(width, height);
    const page = await context.newPage();
    const asked: string[] = [];
    const said: string[] = [];
    page.on('request', request => asked.push(request.url()));
    page.on('console', message => said.push(message.text()));
    page.on('pageerror', error => said.push(error.message));
    const url = `file://${here.path('out/two-windows/index.html')}`;
    await page.goto(url);
    expect(asked.filter(each => !each.startsWith('data:'))).toEqual([url]);
    expect(said).toEqual([]);
    expect(await page.title()).toContain('Two windows in G');
    // Nothing sticks out at the side.
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(width);
    const drawings = page.getByRole('img');
    expect(await drawings.count()).toBe(2 * 8);
    for (const drawing of await drawings.all()) {
      const box = (await drawing.boundingBox())!;
      expect(box.width).toBeGreaterThan(Math.min(width, 700) * 0.85);
      expect(box.height).toBeGreaterThan(50);
    }
    // One column: rules are as wide as the sheets between them.
    const edges = (await page.evaluate(
      `[...document.querySelectorAll('header, section > h2, figure, footer')].map(each => { const { left, right } = each.getBoundingClientRect(); return left + ' to ' + right; })`,
    )) as string[];
    expect(new Set(edges).size).toBe(1);
    // Glyphs that are defined once are found by each drawing.
    const drawn = (await page.evaluate(
      `[...document.querySelectorAll('svg[role=img]')].map(svg => [...svg.querySelectorAll('use')].every(use => use.getBBox().width > 0))`,
    )) as boolean[];
    expect(drawn.every(Boolean)).toBe(true);
    const faces = (await page.evaluate(
      `document.fonts.ready.then(fonts => [...fonts].filter(font => font.status === 'error').length)`,
    )) as number;
    expect(faces).toBe(0);
    // By keyboard, the first stop leads past the notes.
    await page.keyboard.press('Tab');
    expect(await page.evaluate('document.activeElement.textContent')).toBe('To the sheets');
    expect(await page.getByRole('link', { name: 'Booklet' }).count()).toBe(2);
    expect(await contrasts(page)).toBeGreaterThanOrEqual(4.5);
  });

  it('breaks a name that is one long word', { timeout: 60_000 }, async () => {
    const name = 'blow_the_man_down_for_the_saltmarsh_ukulele_club_in_d_second_version';
    const here = terminal(ROW);
    here.write('a.yaml', `{tune: ${ROW}.musicxml, lesson: ${name}, parts: quiz}`);
    await here.run('fretward lesson a.yaml --out out -q');
    const context = await browser(390, 844);
    const page = await context.newPage();
    await page.goto(`file://${here.path('out/a/index.html')}`);
    expect(await page.title()).toContain(name);
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(390);
  });
});

/** The least contrast of text on white (WCAG 2.2, "contrast ratio" and "relative luminance"). */
const contrasts = async (page: { evaluate: (script: string) => Promise<unknown> }): Promise<number> => {
  const colours = (await page.evaluate(
    `[...new Set([...document.querySelectorAll('body *:not(svg *)')].map(each => getComputedStyle(each).color))]`,
  )) as string[];
  const ratios = colours.map(colour => {
    const [r, g, b] = colour.match(/\d+/g)!.map(each => {
      const part = Number(each) / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    }) as [number, number, number];
    return 1.05 / (0.2126 * r + 0.7152 * g + 0.0722 * b + 0.05);
  });
  return Math.min(...ratios);
};
