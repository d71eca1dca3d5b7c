/**
 * The page's script: chooses the trial that is shown, lets pointer, finger and keys read the pictures, saves data and
 * pictures, opens everything for print. Text only ever goes in as text.
 */
export const READER_SCRIPT = String.raw`(() => {
'use strict';
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const make = (name, className, text) => {
  const node = document.createElement(name);
  if (className) node.className = className;
  if (text !== undefined) node.textContent = text;
  return node;
};
const page = (window.longnightPage = {
  make,
  hours: JSON.parse(document.getElementById('hours').textContent),
  /** '2025-12-29 14:00' as '29 Dec 2025, 14:00'. */
  spoken: (text) => {
    const found = /^(\d{4})-(\d\d)(?:-(\d\d)(?: (\d\d:\d\d))?)?$/.exec(text);
    if (!found) return text;
    const [, year, month, day, clock] = found;
    return (day ? Number(day) + ' ' : '') + MONTHS[Number(month) - 1] + ' ' + year + (clock ? ', ' + clock : '');
  },
  /** Numbers of a packed column; NaN where it does not apply. */
  unpack: ({ scale, data }) => {
    const bytes = atob(data);
    const values = new Float64Array(bytes.length / 2);
    for (let i = 0; i < values.length; i++) {
      const whole = bytes.charCodeAt(2 * i) + 256 * bytes.charCodeAt(2 * i + 1);
      values[i] = whole === 65535 ? NaN : whole / scale;
    }
    return values;
  },
  save: (name, kind, text) => {
    const link = make('a');
    link.href = URL.createObjectURL(new Blob([text], { type: kind }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  },
  csv: (headings, rows) => {
    const cell = (text) => (/[",\n\r]/.test(text) ? '"' + text.replaceAll('"', '""') + '"' : text);
    return [headings, ...rows].map((row) => row.map((each) => cell(String(each))).join(',') + '\n').join('');
  },
  /** Start of each hour of a pack's days, UTC milliseconds. */
  hourStarts: (days) => {
    const starts = [];
    days.from.forEach((from, day) => {
      for (let k = 0; k < days.hours[day]; k++) starts.push(page.hours.start_ms + (from + k) * 3600000);
    });
    return starts;
  },
});

const weatherCsv = () => {
  const { days, heading, light, mark } = page.hours.weather;
  const names = ['measured', 'closed', 'split', 'filled', 'stand-in'];
  const values = page.unpack(light);
  const marks = page.unpack(mark);
  const rows = page.hourStarts(days).map((ms, i) => [
    new Date(ms).toISOString().replace('.000', ''),
    Number.isNaN(values[i]) ? '' : values[i],
    names[marks[i]],
  ]);
  return page.csv(['start_utc', heading, 'weather_mark'], rows);
};

const setUp = (figure) => {
  const table = JSON.parse(figure.querySelector('script.data').textContent);
  if (typeof table.rows === 'string') table.rows = table.rows.split('\n').map((line) => line.split(','));
  const sliders = [...figure.querySelectorAll('.reader')];
  const name = figure.id;
  if (sliders.length) readRows(figure, table, sliders);
  const tools = figure.querySelector('.tools');
  tools.hidden = false;
  tools.addEventListener('click', (event) => {
    const button = event.target.closest('button');
    if (!button) return;
    if (button.dataset.do === 'csv') {
      const weather = figure.dataset.figure === 'weather';
      const text = weather ? weatherCsv() : page.csv(table.columns.map((column) => column.heading), table.rows);
      page.save(name + '.csv', 'text/csv', text);
    } else if (button.dataset.do === 'svg') page.save(name + '.svg', 'image/svg+xml', pictureText(figure));
    else toggleTable(figure, table, button);
  });
};

const pictureText = (figure) => {
  const picture = figure.querySelector('svg.picture').cloneNode(true);
  const style = document.createElementNS('http://www.w3.org/2000/svg', 'style');
  style.textContent = JSON.parse(document.getElementById('picture-style').textContent);
  const patterns = document.querySelector('.patterns defs').cloneNode(true);
  picture.prepend(style, patterns);
  const [, , width, height] = picture.getAttribute('viewBox').split(' ');
  picture.setAttribute('width', width);
  picture.setAttribute('height', height);
  return new XMLSerializer().serializeToString(picture);
};

const toggleTable = (figure, table, button) => {
  const space = figure.querySelector('.tableSpace');
  const open = space.hidden;
  space.hidden = !open;
  button.setAttribute('aria-expanded', String(open));
  button.textContent = open ? 'Hide table' : 'Show as table';
  if (!open || space.firstChild) return;
  const box = make('div', 'scroll');
  box.tabIndex = 0;
  box.setAttribute('role', 'region');
  box.setAttribute('aria-label', 'Data of this picture');
  const grid = make('table');
  const head = grid.createTHead().insertRow();
  for (const column of table.columns) {
    const cell = make('th', '', column.label + (column.unit ? ', ' + column.unit : ''));
    cell.scope = 'col';
    head.append(cell);
  }
  const body = grid.createTBody();
  for (const row of table.rows) {
    const line = body.insertRow();
    for (const value of row) line.insertCell().textContent = value;
  }
  box.append(grid);
  space.append(box);
};

const readRows = (figure, table, sliders) => {
  const reading = figure.querySelector('.reading');
  const count = table.rows.length;
  const { step, first, stops: stopText } = sliders[0].dataset;
  const stops = stopText ? JSON.parse(stopText) : { name: '', rows: [] };
  const place = make('span', 'place');
  const values = table.columns.slice(1).map((column) => {
    const item = make('span', 'item');
    const value = make('span', 'value');
    item.append(make('span', 'name', column.label), value);
    return { column, item, value };
  });
  reading.append(place, ...values.map((each) => each.item));
  let row = Number(first);
  const isUpright = (slider) => slider.getAttribute('aria-orientation') === 'vertical';
  // Few rows: the needle is a frame around a whole column.
  const framed = count <= 31;
  for (const slider of sliders) {
    const needle = slider.querySelector('.needle');
    if (isUpright(slider)) needle.classList.add('lying');
    if (framed) {
      needle.classList.add('frame');
      needle.style[isUpright(slider) ? 'height' : 'width'] = 100 / count + '%';
    }
  }
  const show = (wanted) => {
    row = Math.min(Math.max(wanted, 0), count - 1);
    const cells = table.rows[row];
    place.textContent = page.spoken(cells[0]);
    const words = [place.textContent];
    values.forEach(({ column, item, value }, k) => {
      const text = cells[k + 1];
      item.hidden = text === '';
      value.textContent = text + (column.unit ? ' ' + column.unit : '');
      if (text !== '') words.push(column.label + ' ' + value.textContent);
    });
    for (const slider of sliders) {
      const at = (100 * (row + (framed ? 0 : 0.5))) / count + '%';
      slider.querySelector('.needle').style[isUpright(slider) ? 'top' : 'left'] = at;
      slider.setAttribute('aria-valuenow', String(row + 1));
      slider.setAttribute('aria-valuetext', words.join(', '));
    }
    figure.dispatchEvent(new CustomEvent('row', { detail: row }));
  };
  const stopFrom = (direction) => {
    const ahead = stops.rows.filter((each) => (each - row) * direction > 0);
    if (ahead.length) show(direction > 0 ? ahead[0] : ahead[ahead.length - 1]);
  };
  if (stops.rows.length) {
    const steps = make('span', 'steps');
    for (const [direction, word] of [[-1, 'Previous '], [1, 'Next ']]) {
      const button = make('button', '', word + stops.name);
      button.type = 'button';
      button.addEventListener('click', () => stopFrom(direction));
      steps.append(button);
    }
    reading.append(steps);
  }
  const long = { night: 30, day: 30, hour: 24, month: 3 }[step] || 10;
  for (const slider of sliders) {
    const upright = isUpright(slider);
    const rowAt = (event) => {
      const box = slider.getBoundingClientRect();
      const share = upright ? (event.clientY - box.top) / box.height : (event.clientX - box.left) / box.width;
      return Math.floor(count * share);
    };
    slider.addEventListener('pointermove', (event) => show(rowAt(event)));
    slider.addEventListener('pointerdown', (event) => show(rowAt(event)));
    slider.addEventListener('keydown', (event) => {
      const down = upright ? 1 : -1;
      const moves = {
        ArrowLeft: -1, ArrowDown: down, ArrowRight: 1, ArrowUp: -down, PageUp: -long, PageDown: long, Home: -count, End: count,
      };
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.key in moves) show(row + moves[event.key]);
      else if (event.key === 'n') stopFrom(1);
      else if (event.key === 'p') stopFrom(-1);
      else return;
      event.preventDefault();
    });
    slider.hidden = false;
  }
  reading.hidden = false;
  show(row);
  // On a narrow screen the picture is wider than its box: what matters comes into view.
  const scroll = figure.querySelector('.scroll');
  figure.addEventListener('shown', () => {
    if (scroll.scrollWidth > scroll.clientWidth && !scroll.scrollLeft)
      scroll.scrollLeft = (scroll.scrollWidth * (row + 0.5)) / count - scroll.clientWidth / 2;
  });
};

const cards = [...document.querySelectorAll('.card')];
// Only a page with an overview shows one trial at a time.
const trials = cards.length ? [...document.querySelectorAll('.trial')] : [];
const tellShown = () => {
  for (const figure of document.querySelectorAll('figure[data-figure]'))
    if (figure.offsetParent) figure.dispatchEvent(new CustomEvent('shown'));
};
const choose = () => {
  // The ids of a page are plain words: what is not one of them names nothing here.
  const target = document.getElementById(location.hash.slice(1));
  const wanted = target && target.closest('.trial');
  const shown = wanted || trials.find((trial) => !trial.hidden && trials.some((other) => other.hidden)) || trials[0];
  for (const trial of trials) trial.hidden = trial !== shown;
  for (const card of cards) {
    if (shown && card.hash === '#' + shown.id) card.setAttribute('aria-current', 'true');
    else card.removeAttribute('aria-current');
  }
  tellShown();
  if (target) target.scrollIntoView();
};

document.querySelectorAll('figure[data-figure]').forEach(setUp);
window.addEventListener('hashchange', choose);
let opened = [];
window.addEventListener('beforeprint', () => {
  opened = [...document.querySelectorAll('details:not([open])')];
  for (const each of opened) each.open = true;
});
window.addEventListener('afterprint', () => {
  for (const each of opened) each.open = false;
});
document.addEventListener('DOMContentLoaded', choose);
})();`;
