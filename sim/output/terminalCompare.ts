import { fixed } from '../common/csvText.ts';
import type { ComparedSpot, ComparedTrial, Comparison } from '../trial/Comparison.ts';
import { coarserSky } from '../trial/coarserSky.ts';
import { CAUTION_LINES } from './cautionLines.ts';
import { claimTable } from './claimTable.ts';
import { comparedName } from './comparedName.ts';
import { limitSentence } from './limitSentence.ts';
import { type Paint, paint } from './paint.ts';
import { plural } from './plural.ts';
import { promiseWords } from './promiseWords.ts';
import { shortDates } from './shortDates.ts';
import { type SideRow, sideBySide } from './sideBySide.ts';
import { skyPictureText } from './skyPictureText.ts';
import { MONTH_NAMES } from './spokenDates.ts';
import { wrapText } from './wrapText.ts';

/**
 * A comparison for people: what differs beside spots and lamps (loudly), light by month, what limits each spot, the
 * nights side by side, the claim tested, and the sky from every spot with something around it. At most 100 columns.
 *
 * in: comparison; colour, whether the terminal takes it
 * out: text, ending in a line break
 */
export function terminalCompare(comparison: Comparison, colour: boolean): string {
  const style = paint(colour);
  const lines = [
    ...beginning(comparison, style),
    '',
    ...lightTable(comparison, style),
    '',
    ...limitLines(comparison, style),
    ...comparison.tables.flatMap((table) => ['', ...trialTable(comparison, table.name, table.trials, style)]),
    '',
    ...claimTable(comparison, style),
    ...comparison.spots.flatMap((spot) => skyLines(comparison, spot)),
    '',
    ...CAUTION_LINES.map(style.middling),
  ];
  return `${lines.join('\n')}\n`;
}

function beginning(comparison: Comparison, style: Paint): string[] {
  const { scenarios, spots, by, differences, sameWeather, trials } = comparison;
  const names = scenarios.map((scenario) => scenario.name).join(' and ');
  const lamps = new Set(trials.map((trial) => trial.lamp)).size;
  const what =
    by === 'spot' ? 'spots side by side, a table for each lamp' : 'lamps side by side, a table for each spot';
  const counts = `${spots.length} ${plural(spots.length, 'spot')}, ${lamps} ${plural(lamps, 'lamp')}`;
  const [first] = scenarios;
  const alike = scenarios.every(({ promise }) => JSON.stringify(promise) === JSON.stringify(first!.promise));
  const { sha256, hours, first_utc, filled_hours } = first!.weather;
  const filled = filled_hours === 0 ? '' : `, ${filled_hours} of them filled or standing in`;
  const source = sha256 === '' ? 'Light logged on the cell' : 'The same weather for all';
  return [
    ...wrapText(`${names} compared: ${counts}; ${what}`).map(style.strong),
    ...differences.flatMap((difference) => wrapText(`! ${difference}.`, 0, 2)).map(style.bad),
    ...wrapText(sameWeather ? `${source}: ${hours} hours from ${first_utc}${filled}.` : ''),
    ...(alike
      ? wrapText(promiseWords(first!.promise))
      : scenarios.flatMap(({ name, promise }) => wrapText(`${name}. ${promiseWords(promise)}`, 0, 2))),
  ];
}

const monthName = (month: number) => MONTH_NAMES[month - 1]!.slice(0, 3);

function lightTable(comparison: Comparison, style: Paint): string[] {
  const { spots, months } = comparison;
  const number = (value: number) => fixed(value, value < 10 ? 1 : 0) || '-';
  const columns: { name: string; cells: string[] }[] = [];
  let open = '';
  for (const spot of spots) {
    const cells = spot.months.map((month) => number(month.ghi_Wh_m2_day));
    if (cells.join() !== open && spot.months.some((month) => month.ghi_Wh_m2_day >= 0)) {
      open = cells.join();
      columns.push({ name: comparedName(comparison, spot.scenario, 'open'), cells });
    }
    columns.push({
      name: comparedName(comparison, spot.scenario, spot.spot),
      cells: spot.months.map(({ lightOnCell_Wh_m2_day, shareOfOpen }) => {
        const share = Number.isNaN(shareOfOpen) ? '' : ` ${fixed(100 * shareOfOpen, 0).padStart(3)}%`;
        return `${number(lightOnCell_Wh_m2_day)}${share}`;
      }),
    });
  }
  return [
    ...wrapText(
      open === ''
        ? 'Light on the cell, Wh/m2 a day'
        : 'Light on the cell, Wh/m2 a day, and as a share of the open horizontal (the column "open")',
    ).map(style.strong),
    ...sideBySide(
      columns.map((column) => column.name),
      months.flatMap((month, m) =>
        spots.some((spot) => spot.months[m]!.days > 0)
          ? [{ label: monthName(month), cells: columns.map((column) => column.cells[m]!) }]
          : [],
      ),
    ),
  ];
}

function limitLines(comparison: Comparison, style: Paint): string[] {
  const { spots, trials, southern } = comparison;
  return [
    style.strong('What limits each spot'),
    ...spots.flatMap((spot) => {
      const lamps = trials.filter((one) => one.scenario === spot.scenario && one.spot === spot.spot);
      const sentence = limitSentence(
        spot,
        lamps.map((one) => one.inSpot),
        southern,
      );
      return wrapText(`${comparedName(comparison, spot.scenario, spot.spot)}: ${sentence}`, 2, 4);
    }),
    ...wrapText(
      spots.some((spot) => spot.limits !== undefined)
        ? 'Light and sky in the open: of the same cell with nothing around it, tilted alike towards the noon sun.'
        : '',
      2,
    ),
  ];
}

const VERDICTS: Readonly<Record<ComparedTrial['verdict'], string>> = {
  kept: 'kept',
  broken: 'BROKEN',
  'nothing-promised': 'no promise',
  'no-whole-winter': 'no verdict',
};

function trialTable(comparison: Comparison, name: string, places: readonly number[], style: Paint): string[] {
  const { trials, by, months } = comparison;
  const shown = places.map((place) => trials[place]!);
  const row = (label: string, cell: (trial: ComparedTrial) => string): SideRow => ({
    label,
    cells: shown.map(cell),
  });
  const severalWinters = shown.some((trial) => trial.winters > 1);
  const dark = months.filter((_, m) => shown.some((trial) => trial.months[m]!.failedNights > 0));
  return [
    style.strong(by === 'spot' ? `${name}, spot by spot` : `Lamps on ${name}`),
    ...sideBySide(
      shown.map((trial) => comparedName(comparison, trial.scenario, by === 'spot' ? trial.spot : trial.lamp)),
      [
        {
          ...row('promise', (trial) => VERDICTS[trial.verdict]),
          paint: (text: string, k: number) =>
            shown[k]!.verdict === 'broken'
              ? style.bad(text)
              : shown[k]!.verdict === 'kept'
                ? style.good(text)
                : text,
        },
        ...(severalWinters ? [row('whole winters', (trial) => String(trial.winters))] : []),
        row('nights failed', ({ failedNights, nights }) => `${failedNights} of ${nights}`),
        row('hours dark', ({ short_h, promised_h }) => `${fixed(short_h, 1)} of ${fixed(promised_h, 0)}`),
        row('longest spell, nights', ({ longestSpell }) =>
          longestSpell ? String(longestSpell.nights) : '-',
        ),
        row('', ({ longestSpell: spell }) => (spell ? shortDates(spell.from, spell.to) : '')),
        row('darkest fortnight, h dark', ({ darkestFortnight }) =>
          darkestFortnight ? fixed(darkestFortnight.short_h, 1) : '-',
        ),
        row('', ({ darkestFortnight: span }) => (span ? shortDates(span.from, span.to) : '')),
        row('least left at dawn, J', ({ smallestReserve_J }) => fixed(smallestReserve_J, 0) || '-'),
        row('lumen-hours a year', ({ lightGiven_lm_h }) => fixed(lightGiven_lm_h, 0) || '-'),
        ...dark.map((month) =>
          row(`failed in ${monthName(month)} (h dark)`, (trial) => {
            const { failedNights, short_h } = trial.months.find((each) => each.month === month)!;
            return failedNights === 0 ? '-' : `${failedNights} (${fixed(short_h, 1)})`;
          }),
        ),
      ].filter(({ label, cells }) => label !== '' || cells.some((cell) => cell !== '')),
    ),
  ];
}

function skyLines(
  comparison: Comparison,
  { spot, scenario, picture, hasSurroundings }: ComparedSpot,
): string[] {
  if (picture === undefined || !hasSurroundings) return [];
  const { southern } = comparison;
  const name = comparedName(comparison, scenario, spot);
  const [title = '', ...drawn] = skyPictureText(coarserSky(picture), name, { southern, bare: true });
  return ['', ...wrapText(title), ...drawn];
}
