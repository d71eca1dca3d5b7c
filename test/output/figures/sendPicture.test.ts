import { describe, expect, test } from 'vitest';
import { drawnTrials } from '../../../sim/output/figures/drawnTrials.ts';
import { sendPicture } from '../../../sim/output/figures/sendPicture.ts';
import { standaloneSvg } from '../../../sim/output/figures/standaloneSvg.ts';
import type { HourlyTrial } from '../../../sim/trial/Trial.ts';
import { brokenStatistics, darkNight, smallNight, smallRun, smallTrial } from '../smallRun.ts';

function drawn(changes: Partial<HourlyTrial> = {}) {
  const { id, trial, setting } = drawnTrials(smallRun([smallTrial(changes)]), new Map()).trials[0]!;
  return { picture: sendPicture(id, trial, setting), trial, setting };
}

/** The words of a picture, without what fences names off. */
function wordsOf(svg: string): string[] {
  return [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, words]) =>
    words!.replace(/[\u2068\u2069]/g, ''),
  );
}

describe('the picture to send', () => {
  test('says lamp and spot, two sentences, and that it is a simulation of stated weather', () => {
    const words = wordsOf(drawn().picture!.svg);
    expect(words).toContain('single on lawn');
    expect(words).toContain('365 of 365 nights');
    expect(words.join(' ')).toContain('It shines for six hours after dusk on every night of the year.');
    expect(words.join(' ')).toContain('Its closest call is the night of 21 December: ');
    expect(words.join(' ')).toMatch(
      /Made by simulation with longnight, not measured\. Weather: .*20 to 21 December 2025\./,
    );
    expect(words.join(' ')).toContain(
      'at least 0.5 lumen, and a night may be a quarter of an hour short of it',
    );
    expect(words.join(' ')).toContain('no light for stairs or exits');
  });

  test('names the colours that are there, and no others', () => {
    const kept = wordsOf(drawn().picture!.svg);
    expect(kept).not.toContain('night that falls short');
    const failed = drawn({
      nights: [darkNight('2025-12-20', 4), smallNight('2025-12-21')],
      statistics: brokenStatistics(),
    });
    const words = wordsOf(failed.picture!.svg);
    expect(words).toContain('night that falls short');
    expect(words).toContain('342 of 365 nights');
  });

  test('as a file it stands alone, 1200 by 800, with the marks of the night chart and in light colours alone', () => {
    const text = standaloneSvg(drawn().picture!);
    expect(text).toMatch(
      /^<\?xml version="1.0" encoding="UTF-8"\?>\n<svg [^>]*viewBox="0 0 1200 800" width="1200" height="800"/,
    );
    expect(text).toContain('<g id="trial-1-nights-marks"');
    expect(text).toContain('<use href="#trial-1-nights-marks"');
    expect(text).not.toContain('prefers-color-scheme');
    expect(text).not.toMatch(/<script|href="(?!#)|url\((?!#)/);
  });

  test('borrows its marks, so that a page holds them once', () => {
    expect(drawn().picture!.svg.length).toBeLessThan(6000);
  });

  test('long names are cut, those from the right fenced off, and none is taken for markup', () => {
    const lamp = `${'a very long name of a lamp '.repeat(9)}<b>`;
    const spot = 'שלום '.repeat(40);
    const { svg } = drawn({ lamp, spot }).picture!;
    const title = wordsOf(svg)[1]!;
    expect(title.length).toBeLessThan(80);
    expect(title).toMatch(/^a very long.*… on שלום.*…$/);
    expect(svg).toMatch(/\u2068a very long[^\u2069]*\u2069 on \u2068שלום[^\u2069]*\u2069</);
    expect(svg).not.toContain('<b>');
  });

  test('a short name beside a long one keeps all its letters', () => {
    const title = wordsOf(drawn({ spot: 'x'.repeat(200) }).picture!.svg)[1]!;
    expect(title).toMatch(/^single on x{20,}…$/);
  });

  test('there is none without a night', () => {
    expect(drawn({ nights: [] }).picture).toBeUndefined();
  });
});
