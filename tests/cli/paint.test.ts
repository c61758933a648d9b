/** Colour on a terminal can be read, on white and on black. */
import { afterEach, expect, test, vi } from 'vitest';
import { painter } from '../../src/cli/paint.ts';
import type { TextRole } from '../../src/emit/text/row.ts';

const ROLES: readonly TextRole[] = ['heading', 'chord', 'lyric', 'digit', 'outside', 'staff'];

/** The colours of X's terminal emulator by their codes, as its defaults name them (red3 …); from memory. */
const COLOURS: Readonly<Record<string, readonly [number, number, number]>> = {
  30: [0, 0, 0],
  31: [205, 0, 0],
  32: [0, 205, 0],
  33: [205, 205, 0],
  34: [0, 0, 238],
  35: [205, 0, 205],
  36: [0, 205, 205],
  37: [229, 229, 229],
  90: [127, 127, 127],
  91: [255, 0, 0],
  92: [0, 255, 0],
  93: [255, 255, 0],
  94: [92, 92, 255],
  95: [255, 0, 255],
  96: [0, 255, 255],
  97: [255, 255, 255],
};

/** Relative luminance (WCAG 2.1, from memory). */
const luminance = (rgb: readonly [number, number, number]): number => {
  const [r, g, b] = rgb.map(value => {
    const share = value / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};

afterEach(() => {
  vi.unstubAllEnvs();
  Reflect.deleteProperty(process.stdout, 'isTTY');
});

const onTerminal = (): void => {
  Object.defineProperty(process.stdout, 'isTTY', { value: true, configurable: true });
  vi.stubEnv('NO_COLOR', undefined);
  vi.stubEnv('FORCE_COLOR', '1');
};

test('every colour stands out by three to one at least from white and from black', async () => {
  onTerminal();
  const paint = await painter(true);
  const painted = ROLES.map(role => paint(role, 'x'));
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what it is about.
  const codes = painted.join('').match(/(?<=\u001b\[)\d+(?=m)/g) ?? [];
  const colours = codes.filter(code => code in COLOURS);
  expect(colours.length).toBeGreaterThan(0);
  for (const code of colours) {
    const light = luminance(COLOURS[code]!);
    expect(1.05 / (light + 0.05), `${code} on white`).toBeGreaterThanOrEqual(3);
    expect((light + 0.05) / 0.05, `${code} on black`).toBeGreaterThanOrEqual(3);
  }
});

test('frets outside the window look otherwise than those inside', async () => {
  onTerminal();
  const paint = await painter(true);
  expect(paint('outside', '7')).not.toBe(paint('digit', '7'));
});

test('nothing is painted where colour is not wanted', async () => {
  onTerminal();
  const plain = await painter(false);
  vi.stubEnv('NO_COLOR', '1');
  const bare = await painter(true);
  for (const role of ROLES) for (const paint of [plain, bare]) expect(paint(role, 'x')).toBe('x');
});
