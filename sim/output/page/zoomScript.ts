/** The page's script for the closer look at the capacitor, hour by hour, drawn by the inlined library. */
export const ZOOM_SCRIPT = `(() => {
'use strict';
const page = window.longnightPage;
const { make } = page;
const SPANS = [['Day', 1], ['Week', 7], ['Month', 31], ['All', 0]];
const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue('--' + name).trim();
const two = (number) => String(number).padStart(2, '0');

const setUp = (figure) => {
  const own = page.hours.trials[figure.dataset.of];
  const space = figure.querySelector('.closer');
  if (!own || !space) return;
  const { days } = own;
  const starts = page.hourStarts(days);
  const first = [];
  days.hours.reduce((sum, hours, day) => ((first[day] = sum), sum + hours), 0);
  const dayOf = (hour) => {
    let day = Math.min(Math.floor(hour / 24), first.length - 1);
    while (day > 0 && first[day] > hour) day--;
    while (day < first.length - 1 && first[day + 1] <= hour) day++;
    return day;
  };
  const localText = (hour) => {
    const at = Math.min(Math.max(Math.floor(hour), 0), starts.length - 1);
    const ms = starts[at] + (hour - at) * 3600000 + days.offset_min[dayOf(at)] * 60000;
    return new Date(ms).toISOString().slice(0, 16).replace('T', ' ');
  };
  const count = starts.length;
  const x = Float64Array.from({ length: count }, (_, i) => i + 1);
  const holes = (values) => Array.from(values, (value) => (Number.isNaN(value) ? null : value));
  const capacitor = page.unpack(own.capacitor_V);
  const reachable = page.unpack(own.reachable_V);
  const light = page.unpack(page.hours.lights[own.light]);
  const level = (value) => new Array(count).fill(value);

  const top = make('div', 'closerTop');
  const range = make('span', 'range');
  range.setAttribute('aria-live', 'polite');
  const heading = make('span', 'name', 'Closer, hour by hour:');
  top.append(heading, range);
  const frame = make('div', 'closerFrame');
  space.append(top, frame);
  let plot;
  let middle = count / 2;
  let span = 7;
  const bounds = () => {
    const wide = span === 0 ? count : Math.min(span * 24, count);
    const from = span === 0 ? 0 : span === 1 ? first[dayOf(Math.floor(middle))] : Math.min(Math.max(middle - wide / 2, 0), count - wide);
    return [from, Math.min(from + wide, count)];
  };
  const say = (from, to) => {
    const [a, b] = [page.spoken(localText(from).slice(0, 10)), page.spoken(localText(Math.max(from, to - 1)).slice(0, 10))];
    range.textContent = a === b ? a : a + ' to ' + b;
    frame.setAttribute('aria-label', 'Capacitor, reachable voltage and light on the cell, hour by hour, ' + range.textContent);
  };
  const go = () => {
    if (!plot) return;
    const [min, max] = bounds();
    plot.setScale('x', { min, max });
  };
  const buttons = SPANS.map(([word, length]) => {
    const button = make('button', '', word);
    button.type = 'button';
    button.addEventListener('click', () => {
      span = length;
      for (const each of buttons) each.setAttribute('aria-pressed', String(each === button));
      go();
    });
    button.setAttribute('aria-pressed', String(length === span));
    return button;
  });
  const step = (word, direction) => {
    const button = make('button', '', word);
    button.type = 'button';
    button.addEventListener('click', () => {
      const [from, to] = plot ? [plot.scales.x.min, plot.scales.x.max] : bounds();
      middle = Math.min(Math.max((from + to) / 2 + direction * (to - from), 0), count - 1);
      go();
    });
    return button;
  };
  const save = make('button', '', 'Save hours (CSV)');
  save.type = 'button';
  save.addEventListener('click', () => {
    const text = (value) => (Number.isNaN(value) ? '' : value);
    const rows = starts.map((ms, i) => [new Date(ms).toISOString().replace('.000', ''), text(capacitor[i]), text(reachable[i]), text(light[i])]);
    page.save(figure.id + '-hours.csv', 'text/csv', page.csv(['start_utc', 'capacitor_end_V', 'reachable_V', 'light_on_cell_W_m2'], rows));
  });
  top.append(...buttons, step('Earlier', -1), step('Later', 1), save);

  const ticks = (u, axis, min, max) => {
    const whole = (max - min) / 24;
    if (whole <= 3) {
      const every = whole <= 1.2 ? 3 : 6;
      const hours = [];
      for (let day = dayOf(min); day < first.length && first[day] <= max; day++)
        for (let h = 0; h < days.hours[day]; h += every) if (first[day] + h >= min && first[day] + h <= max) hours.push(first[day] + h);
      return hours;
    }
    const every = Math.ceil(whole / Math.max(u.width / 90, 2));
    if (every > 12) return first.filter((hour, day) => hour >= min && hour <= max && localText(hour).slice(8, 10) === '01');
    return first.filter((hour, day) => hour >= min && hour <= max && day % every === 0);
  };
  const tickText = (u, values) => {
    const whole = (u.scales.x.max - u.scales.x.min) / 24;
    return values.map((hour) => {
      const text = localText(hour);
      if (whole <= 3 && !text.endsWith('00:00')) return text.slice(11);
      const spoken = page.spoken(text.slice(0, 10)).split(' ');
      return whole > 120 ? spoken[1] : spoken[0] + ' ' + spoken[1];
    });
  };
  const number = (decimals, unit) => (u, value) => (value == null ? '–' : value.toFixed(decimals) + ' ' + unit);
  const draw = () => {
    if (plot) plot.destroy();
    const line = colour('line');
    const faint = colour('faint');
    const font = '12px system-ui, sans-serif';
    const [min, max] = bounds();
    const axis = { stroke: faint, grid: { stroke: line, width: 1 }, ticks: { stroke: line, width: 1 }, font };
    plot = new uPlot(
      {
        width: Math.max(frame.clientWidth, 260),
        height: 300,
        legend: { live: true },
        cursor: { drag: { x: true, y: false, setScale: true } },
        scales: { x: { time: false, min, max }, V: { range: (u, low, high) => [0, Math.max(high, own.rated_V || 0) * 1.05] }, W: { range: (u, low, high) => [0, Math.max(high, 10) * 1.6] } },
        axes: [
          { ...axis, splits: ticks, values: tickText },
          { ...axis, scale: 'V', size: 52, values: (u, values) => values.map((value) => value + ' V') },
          { ...axis, scale: 'W', side: 1, size: 78, grid: { show: false }, values: (u, values) => values.map((value) => value + ' W/m2') },
        ],
        series: [
          { label: 'hour to', value: (u, value) => (value == null ? '–' : page.spoken(localText(value))) },
          { label: 'light on the cell', scale: 'W', stroke: colour('light'), fill: colour('lightPale'), width: 1, points: { show: false }, paths: uPlot.paths.stepped({ align: -1 }), value: number(1, 'W/m2') },
          { label: 'reachable', scale: 'V', stroke: colour('lightDeep'), width: 1.5, points: { show: false }, paths: uPlot.paths.stepped({ align: -1 }), value: number(3, 'V') },
          { label: 'capacitor', scale: 'V', stroke: colour('darkWords'), width: 2, points: { show: false }, value: number(3, 'V') },
          { label: 'cut-off', scale: 'V', stroke: colour('ink'), width: 1.25, dash: [7, 4], points: { show: false }, value: number(2, 'V') },
          { label: 'rated', scale: 'V', stroke: colour('ink'), width: 1.25, dash: [2, 3], points: { show: false }, value: number(2, 'V') },
        ],
        hooks: { setScale: [(u, key) => key === 'x' && say(u.scales.x.min, u.scales.x.max)] },
      },
      [x, holes(light), holes(reachable), holes(capacitor), level(own.cutoff_V), level(own.rated_V)],
      frame,
    );
    plot.over.addEventListener('dblclick', () => {
      span = 0;
      for (const each of buttons) each.setAttribute('aria-pressed', String(each.textContent === 'All'));
      setTimeout(go, 0);
    });
    say(min, max);
  };
  frame.setAttribute('role', 'img');
  space.hidden = false;
  figure.addEventListener('row', (event) => {
    middle = first[event.detail] + 12;
    go();
  });
  let drawn = false;
  const seen = new IntersectionObserver((entries) => {
    if (!entries.some((entry) => entry.isIntersecting)) return;
    seen.disconnect();
    drawn = true;
    draw();
  }, { rootMargin: '400px' });
  seen.observe(space);
  matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => drawn && draw());
  new ResizeObserver(() => {
    if (plot && frame.clientWidth > 0 && Math.abs(plot.width - frame.clientWidth) > 2) plot.setSize({ width: Math.max(frame.clientWidth, 260), height: 300 });
  }).observe(frame);
};

document.querySelectorAll('figure[data-figure="capacitor"]').forEach(setUp);
})();`;
