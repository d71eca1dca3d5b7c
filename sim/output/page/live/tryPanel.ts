import type { Knob, Knobs } from '../../../trial/live/LiveRun.ts';
import type { HourlyTrial } from '../../../trial/Trial.ts';
import { element, wordsMarkup } from '../../figures/element.ts';
import { embeddedJson } from '../embeddedJson.ts';
import { glance } from './glance.ts';
import { knobWords } from './knobWords.ts';

/**
 * What a maker turns a trial's values with: a slider for each number, a choice for each other. Hidden until the page's
 * script finds that it can run trials here.
 *
 * in: id, of the trial; knobs, its own; trial; latitude_deg, of the site
 * out: markup
 */
export function tryPanel(
  id: string,
  { knobs, fixed }: Knobs,
  trial: HourlyTrial,
  latitude_deg: number,
): string {
  const own = `${id}-try`;
  const all = knobs.map((knob, k) => ({ of: knob.of, markup: knobMarkup(`${own}-${k + 1}`, knob) }));
  const markupOf = ({ markup }: (typeof all)[number]) => markup;
  const parts = [
    `<h3 id="${own}">Try it</h3>`,
    '<p class="tryHint">Turn a value: the whole year runs again, here in this page.</p>',
    element(
      'div',
      { class: 'knobs' },
      all
        .filter(({ of }) => of === 'lamp')
        .map(markupOf)
        .join(''),
    ),
    `<details class="more"><summary>Promise and spot</summary><div class="knobs">`,
    ...all.filter(({ of }) => of !== 'lamp').map(markupOf),
    `</div>${fixed.length === 0 ? '' : fixedMarkup(fixed)}</details>`,
    `<div class="tryFoot"><div class="glance">${glance(trial, latitude_deg).markup}</div>`,
    '<div class="tryTools"><button type="button" data-do="back" disabled>Back to the file’s values</button>',
    '<button type="button" data-do="scenario" disabled>Take away as YAML</button></div></div>',
    '<p class="refused" hidden></p><p class="unseen" role="status"></p>',
  ];
  const attributes = { class: 'try', hidden: '', role: 'group', 'aria-labelledby': own, 'data-of': id };
  return element('div', attributes, parts.join(''));
}

function knobMarkup(id: string, knob: Knob): string {
  const { key, of, label, steps, value, note } = knob;
  const place = steps.indexOf(value);
  const facts = {
    id,
    'data-key': key,
    'data-owner': of,
    'data-unit': knob.unit,
    'data-steps': embeddedJson(steps),
    'data-place': place,
    'data-whole': knob.whole === true ? '' : undefined,
    'aria-describedby': note === undefined ? undefined : `${id}-note`,
  };
  const control =
    typeof value === 'number'
      ? element('input', {
          ...facts,
          type: 'range',
          min: 0,
          max: steps.length - 1,
          step: 1,
          value: place,
          'aria-valuetext': `${knobWords(knob, value)}, as in the file`,
        })
      : element(
          'select',
          facts,
          steps
            .map((step, k) =>
              element(
                'option',
                { value: k, selected: k === place ? '' : undefined },
                wordsMarkup(knobWords(knob, step)),
              ),
            )
            .join(''),
        );
  const shown =
    typeof value === 'number' ? element('output', { for: id }, wordsMarkup(knobWords(knob, value))) : '';
  return element(
    'div',
    { class: 'knob' },
    element('label', { for: id }, wordsMarkup(label)) +
      shown +
      control +
      (note === undefined ? '' : element('p', { class: 'knobNote', id: `${id}-note` }, wordsMarkup(note))),
  );
}

function fixedMarkup(fixed: Knobs['fixed']): string {
  const items = fixed.map(({ label, why }) => element('li', {}, wordsMarkup(`${label}: ${why}`)));
  return `<ul class="fixed" aria-label="What cannot be turned here">${items.join('')}</ul>`;
}
