/// <reference lib="dom" />
import { browserPath, openFile, startBrowser } from '../browser/browser.ts';
import type { Times } from './timesOf.ts';

/** How a hand turns: to the next value each time, or to any. */
export type Hand = 'evenly' | 'to and fro';

/** How long a page takes from a turned value until its night chart is painted again, milliseconds. */
interface Redraw {
  /** All of it, the page's own thread slowed down as asked. */
  whole: Times;
  /** The worker's part of it, which the browser's tools do not slow down. */
  worker: Times;
}

const TURNS = 40;
const WARM = 10;

/** Turns the first slider of a page's first trial; undefined where there is no browser. */
export async function liveRedraw(file: string, slowed: number, hand: Hand): Promise<Redraw | undefined> {
  const executable = browserPath();
  if (executable === undefined) return undefined;
  const browser = await startBrowser(executable);
  const { page } = await openFile(browser, file, {}, '#trial-1');
  const tools = await page.context().newCDPSession(page);
  await tools.send('Emulation.setCPUThrottlingRate', { rate: slowed });
  const times = await page.evaluate(turned, [TURNS + WARM, hand === 'evenly'] as const);
  await browser.close();
  const sorted = (values: number[]) => {
    const late = values.slice(WARM).sort((a, b) => a - b);
    return { median: late[late.length >> 1]!, least: late[0]! };
  };
  return {
    whole: sorted(times.map(([whole]) => whole!)),
    worker: sorted(times.map(([, worker]) => worker!)),
  };
}

/** In the page. out: of each turn the whole time, and from the question to the worker's answer */
async function turned([count, evenly]: readonly [number, boolean]): Promise<number[][]> {
  const slider = document.querySelector<HTMLInputElement>('.try input')!;
  // Says what is drawn, at the moment at which it is; the chart may look as before.
  const banner = document.querySelector('.tried')!;
  // Never the file's value, which needs no worker; all others in turn, more than the worker keeps trials of.
  const places = Array.from({ length: Number(slider.max) + 1 }, (_, k) => k).filter(
    (k) => String(k) !== slider.dataset.place,
  );
  const post = Worker.prototype.postMessage;
  let asked = 0;
  let answered = 0;
  Worker.prototype.postMessage = function (this: Worker, ...words: unknown[]) {
    const [{ number }] = words as [{ number: number }];
    // The first question of a turn is the turn's own; the next may be about what comes after it.
    if (Number.isNaN(asked)) {
      asked = performance.now();
      this.addEventListener('message', ({ data, timeStamp }) => {
        // The page's own listener may have drawn before this one is called.
        if (data.number === number) answered = timeStamp;
      });
    }
    return Reflect.apply(post, this, words);
  };
  const times: number[][] = [];
  for (let k = 0; k < count; k++) {
    const from = performance.now();
    asked = Number.NaN;
    const drawn = new Promise<void>((resolve) => {
      const seen = new MutationObserver(() => {
        seen.disconnect();
        requestAnimationFrame(() => setTimeout(resolve, 0));
      });
      seen.observe(banner, { childList: true });
    });
    // Parts of the whole that never lie as far apart as the last two.
    const place = evenly ? k % places.length : Math.floor(((k * 0.618034) % 1) * places.length);
    slider.value = String(places[place]);
    slider.dispatchEvent(new Event('input', { bubbles: true }));
    await drawn;
    times.push([performance.now() - from, answered - asked]);
    // A key that is held turns some thirty times a second.
    await new Promise((resolve) => setTimeout(resolve, 33));
  }
  return times;
}
