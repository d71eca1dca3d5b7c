import { browserPath, openFile, startBrowser } from '../browser/browser.ts';
import type { Times } from './timesOf.ts';

const ROUNDS = 9;

/** How long a browser takes from opening a page on disk until its load event; undefined where there is no browser. */
export async function pageLoad(file: string): Promise<Times | undefined> {
  const executable = browserPath();
  if (executable === undefined) return undefined;
  const browser = await startBrowser(executable);
  const times: number[] = [];
  for (let round = 0; round < ROUNDS; round++) {
    const { page } = await openFile(browser, file);
    await page.waitForFunction(() =>
      performance.getEntriesByType('navigation').some(({ duration }) => duration > 0),
    );
    times.push(await page.evaluate(() => performance.getEntriesByType('navigation')[0]!.duration));
    await page.context().close();
  }
  await browser.close();
  times.sort((a, b) => a - b);
  return { median: times[(ROUNDS - 1) / 2]!, least: times[0]! };
}
