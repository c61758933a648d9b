/** A real browser for tests, where there is one: Debian's Chromium. */
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, chromium } from 'playwright-core';
import { onTestFinished } from 'vitest';

const CHROMIUM = '/usr/bin/chromium';

export const hasBrowser = existsSync(CHROMIUM);
if (!hasBrowser) console.warn(`skipped: tests in a browser, which want Chromium at ${CHROMIUM}`);

/** A window of that size in a browser with a profile of its own. */
export const browser = async (width: number, height: number): Promise<BrowserContext> => {
  const profile = mkdtempSync(join(tmpdir(), 'fretward-browser-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: CHROMIUM,
    headless: true,
    viewport: { width, height },
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  onTestFinished(async () => {
    await context.close();
    rmSync(profile, { recursive: true, force: true });
  });
  return context;
};
