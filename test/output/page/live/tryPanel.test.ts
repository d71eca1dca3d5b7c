import { describe, expect, test } from 'vitest';
import { tryPanel } from '../../../../sim/output/page/live/tryPanel.ts';
import type { Knobs } from '../../../../sim/trial/live/LiveRun.ts';
import { smallTrial } from '../../smallRun.ts';

const KNOBS: Knobs = {
  knobs: [
    {
      key: 'driver.inductance_uH',
      of: 'lamp',
      label: 'inductance',
      unit: 'uH',
      value: 680,
      steps: [470, 680, 820],
    },
    {
      key: 'until',
      of: 'promise',
      label: 'promised <until>',
      unit: '',
      value: '23:00',
      steps: ['22:00', '23:00'],
    },
    {
      key: 'snow.on_lid',
      of: 'spot',
      label: 'snow stays',
      unit: '',
      value: true,
      steps: [true, false],
      note: 'a note',
    },
  ],
  fixed: [{ label: 'current', why: 'the driver is a table' }],
};

describe('tryPanel(id, knobs, trial)', () => {
  const markup = tryPanel('trial-2', KNOBS, smallTrial(), 54);

  test('stays hidden until a script finds that trials can run here', () => {
    expect(markup).toMatch(/^<div class="try" hidden=""/);
  });

  test('has a slider for a number, at the place of the file, which says value and unit', () => {
    const slider = /<input [^>]*>/.exec(markup)![0];
    expect(slider).toMatch(
      /type="range" min="0" max="2" step="1" value="1" aria-valuetext="680 µH, as in the file"/,
    );
    expect(slider).toContain('data-key="driver.inductance_uH" data-owner="lamp"');
    expect(markup).toContain('>680 µH</output>');
  });

  test('has a choice for each other, the file’s chosen, its label escaped and its note tied to it', () => {
    expect(markup).toContain('>promised &lt;until&gt;</label>');
    expect(markup).toContain('<option value="1" selected="">23:00</option>');
    expect(markup).toMatch(/aria-describedby="trial-2-try-3-note"[\s\S]*id="trial-2-try-3-note">a note</);
  });

  test('says what cannot be turned, and why', () => {
    expect(markup).toContain('<li>current: the driver is a table</li>');
  });
});
