/// <reference lib="dom" />
/// <reference lib="dom.iterable" />
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/** A browser of this machine: that which the variable CHROMIUM names, or one in a usual place; undefined without one. */
export function browserPath(): string | undefined {
  const named = process.env.CHROMIUM;
  return (named === undefined ? PLACES : [named]).find((path) => existsSync(path));
}

/** Starts a browser without a window that looks for nothing in the network by itself. */
export function startBrowser(path: string): Promise<Browser> {
  return chromium.launch({
    executablePath: path,
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-dev-shm-usage',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--no-first-run',
      '--font-render-hinting=none',
    ],
  });
}

/** A page, with everything it said and asked for. */
export interface OpenPage {
  page: Page;
  /** Errors and warnings of the console, and uncaught errors. */
  problems: string[];
  /** What was requested beside the page itself. */
  requests: string[];
}

/** Opens a file in a window of its own. */
export async function openFile(
  browser: Browser,
  file: string,
  options: BrowserContextOptions = {},
  hash = '',
): Promise<OpenPage> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  // A busy machine takes its time over a page of a megabyte.
  page.setDefaultTimeout(60_000);
  const problems: string[] = [];
  const requests: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) problems.push(message.text());
  });
  page.on('pageerror', (error) => problems.push(String(error)));
  page.on('request', (request) => {
    if (!request.isNavigationRequest() && !/^(data|blob):/.test(request.url())) requests.push(request.url());
  });
  await page.goto(`file://${file}${hash}`);
  return { page, problems, requests };
}

/** What is used of the accessibility checker. */
interface Axe {
  run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
}

/** What an accessibility checker finds wrong with a page. */
export async function violationsOf(page: Page): Promise<string[]> {
  const checker = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
  await page.evaluate(readFileSync(checker, 'utf8'));
  return page.evaluate(async () => {
    const { violations } = await (window as unknown as { axe: Axe }).axe.run();
    return violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(' | ')}`,
    );
  });
}
