import { fixed } from '../../common/csvText.ts';
import type { WinterStatistics } from '../../statistics/TrialStatistics.ts';
import { escapeText } from '../figures/element.ts';
import { plural, spokenDates } from '../words.ts';

const MEANINGS =
  '<details class="about"><summary>What these numbers mean</summary><dl>' +
  '<dt>Dark</dt><dd>Promised hours in which the LED did not shine at or above the promised level.</dd>' +
  '<dt>Failed</dt><dd>A night with more short hours than the tolerance.</dd>' +
  '<dt>Spell</dt><dd>Failed nights one after the other.</dd>' +
  "<dt>Reserve</dt><dd>Energy in the capacitor at dawn above what it holds at the driver's cut-off; below it, what is missing.</dd>" +
  '<dt>Light</dt><dd>Lumen of all LEDs together, summed over the winter.</dd>' +
  '<dt>Source</dt><dd>The night ledger of this run, nights.csv; <a href="#grounds-assumptions">what was assumed</a>.</dd>' +
  '</dl></details>';

/**
 * The few numbers that a winter comes to, large.
 *
 * in: winter
 * out: markup; '' where nothing was promised
 */
export function factsPart(winter: WinterStatistics): string {
  if (winter.nights === 0) return '';
  const { longestSpell: spell, worstNight } = winter;
  const facts: [string, string, string][] = [
    [`${winter.failedNights}`, `of ${winter.nights}`, 'nights failed'],
    [fixed(winter.short_h, 1), 'h', `dark of ${fixed(winter.promised_h, 0)} h promised`],
  ];
  if (worstNight !== undefined && winter.failedNights > 0) {
    facts.push([
      fixed(worstNight.short_h, 1),
      'h',
      `dark in the worst night, ${spokenDates(worstNight.night)}`,
    ]);
  }
  if (spell !== undefined) {
    facts.push([
      `${spell.nights}`,
      plural(spell.nights, 'night'),
      `longest dark spell, ${spokenDates(spell.from, spell.to)}`,
    ]);
  }
  if (!Number.isNaN(winter.smallestReserve_J)) {
    const side = winter.smallestReserve_J < 0 ? 'below' : 'above';
    facts.push([
      fixed(Math.abs(winter.smallestReserve_J), 0),
      'J',
      `${side} the cut-off at the leanest dawn, after ${spokenDates(winter.smallestReserveNight)}`,
    ]);
  }
  facts.push([fixed(winter.lightGiven_lm_h, 0), 'lm h', 'light given']);
  const items = facts.map(
    ([value, unit, words]) =>
      `<div class="fact"><dt>${escapeText(words)}</dt><dd><b>${escapeText(value)}</b> ${escapeText(unit)}</dd></div>`,
  );
  return `<dl class="facts">${items.join('')}</dl>${MEANINGS}`;
}
