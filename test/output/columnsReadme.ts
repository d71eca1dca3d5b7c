import {
  DESIGN_COLUMNS,
  DESIGN_HEADINGS,
  HOUR_HEADINGS,
  LAMP_COLUMNS,
  LIFE_COLUMNS,
  LIGHT_COLUMNS,
  MARK_HEADING,
  NIGHT_COLUMNS,
  TRIAL_HEADINGS,
  WEATHER_COLUMNS,
} from '../../sim/output/columns.ts';

type Line = readonly [heading: string, unit: string, meaning: string];

/** Markdown for sim/output/README.md: the columns of nights.csv, hours.csv, life.csv and designs.csv. */
export function columnsReadme(): string {
  return [
    "`nights.csv`, a row per spot, lamp and night (an empty cell means 'does not apply'; a name that a spreadsheet would calculate, such as `=north`, has an apostrophe before it, which `textOfCell` of the library takes away):",
    '',
    ...table([...named(TRIAL_HEADINGS), ...listed(NIGHT_COLUMNS)]),
    '',
    '`hours.csv`, a row per spot, lamp and hour (for one year of weather; of more with `--hours`):',
    '',
    ...table([
      ...named({ ...TRIAL_HEADINGS, ...HOUR_HEADINGS }),
      ...listed(WEATHER_COLUMNS),
      ...named(MARK_HEADING),
      ...listed(LIGHT_COLUMNS),
      ...listed(LAMP_COLUMNS),
    ]),
    '',
    '`life.csv` of `longnight life`, a row per spot, lamp, published factor and winter:',
    '',
    ...table([...named(TRIAL_HEADINGS), ...listed(LIFE_COLUMNS)]),
    '',
    '`designs.csv` of `size`, a row per spot and design that was run, the present lamp first where it is none of them; after the spot come the choices, each under its key, such as `capacitor.capacitance_F`:',
    '',
    ...table([...named(DESIGN_HEADINGS), ...listed(DESIGN_COLUMNS)]),
    '',
  ].join('\n');
}

function named(headings: Readonly<Record<string, string>>): Line[] {
  return Object.entries(headings).map(([heading, meaning]) => [heading, '', meaning]);
}

function listed(columns: readonly { heading: string; unit: string; meaning: string }[]): Line[] {
  return columns.map(({ heading, unit, meaning }) => [heading, unit, meaning]);
}

function table(lines: readonly Line[]): string[] {
  return [
    '| column | unit | meaning |',
    '|---|---|---|',
    ...lines.map(
      ([heading, unit, meaning]) => `| \`${heading}\` |${unit === '' ? '' : ` ${unit}`} | ${meaning} |`,
    ),
  ];
}
