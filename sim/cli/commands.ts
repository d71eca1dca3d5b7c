import type { Command } from './Command.ts';
import { RESULT_OPTIONS, WISH_OPTIONS } from './options.ts';

/** Every command, in the order of the help; its file is loaded when it is called. */
export const COMMANDS: readonly Command[] = [
  {
    name: 'run',
    words: ['SCENARIO'],
    about: 'run every lamp in every spot through the weather; which nights fail, dim or out, and why',
    examples: [
      ['longnight run scenarios/invented-garden.yaml', 'the verdict; files in out/invented-garden/'],
      ['longnight run garden.yaml --weather 1996.csv --out results', 'another year, results elsewhere'],
      ['longnight run garden.yaml --figures pictures', 'the pictures of the page as SVG files too'],
      [
        'longnight run scenarios/bench-readings.yaml --spread',
        'does the verdict stand, as far as the bench says',
      ],
      ['longnight run garden.yaml --must-keep --json > verdict.json', 'for scripts: exit code 3 when broken'],
      [
        'longnight run scenarios/invented-winters.yaml --must-keep 0.5',
        'several winters: exit code 3 where fewer than half may be kept',
      ],
    ],
    options: [
      ...RESULT_OPTIONS,
      'winters',
      'batch',
      'hours',
      'details',
      'weather',
      ...WISH_OPTIONS,
      'whole-record',
      'spread',
    ],
    load: async () => (await import('./commands/run.ts')).runCommand,
  },
  {
    name: 'compare',
    words: ['SCENARIO...'],
    about: 'spots or lamps side by side: light by month, nights, and what limits each spot',
    examples: [
      ['longnight compare scenarios/invented-garden.yaml', 'the north side or the open lawn?'],
      ['longnight compare garden.yaml --by lamp', 'one capacitor or two, spot by spot'],
      ['longnight compare garden.yaml --figures pictures', 'the pictures of the page as SVG files too'],
      ['longnight compare garden.yaml balcony.yaml --json', 'two scenarios, for scripts: compare.json'],
    ],
    options: [
      ...RESULT_OPTIONS,
      'by',
      'winters',
      'batch',
      'details',
      'weather',
      ...WISH_OPTIONS,
      'whole-record',
    ],
    load: async () => (await import('./commands/compare.ts')).compareCommand,
  },
  {
    name: 'weather',
    words: ['FILE...'],
    about: 'say what is understood of a weather export of any layout, and prove it against the sun',
    examples: [
      ['longnight weather data-samples/invented-day-sums.csv', 'what it is good for, in a dozen lines'],
      [
        'longnight weather data-samples/invented-day-sums.csv --details',
        'how it was read, what the sun says, what is wrong, light by month',
      ],
      ['longnight weather 2021.csv 2022.csv --place 54,10', 'two files of one record'],
      [
        'longnight weather export.txt --scenario garden.yaml --write weather.csv',
        'the place from a scenario; saved in the plain form',
      ],
      [
        'gunzip -c export.gz | longnight weather - --place 54,10 --write - | head',
        'from standard input to standard output',
      ],
      ['longnight weather odd.csv --marks end --zone +01:00', 'where the file does not say, or says wrong'],
    ],
    options: ['scenario', ...WISH_OPTIONS, 'air', 'details', 'write', 'force', 'json'],
    load: async () => (await import('./commands/weather.ts')).weatherCommand,
  },
  {
    name: 'climate',
    words: ['FILE...'],
    about:
      'learn the climate of a place from five winters or more, to make winters from; how far to trust it',
    examples: [
      [
        'longnight climate data-samples/invented-winters.csv.gz',
        'what the record says of its months, and how well it foretells its own winters',
      ],
      [
        'longnight climate data-samples/invented-winters.csv.gz --write climate.yaml',
        'kept, for weather: { climate: { file: climate.yaml } } of a scenario',
      ],
    ],
    options: ['scenario', ...WISH_OPTIONS, 'whole-record', 'air', 'write', 'force', 'json'],
    load: async () => (await import('./commands/climate.ts')).climateCommand,
  },
  {
    name: 'size',
    words: ['SCENARIO'],
    about:
      'the cheapest lamp that keeps the promise here, of all that the choices allow; single questions; which lamp goes where',
    examples: [
      [
        'longnight size scenarios/cheapest-lamp.yaml',
        'what is the least to buy, and what would more money do?',
      ],
      ['longnight size scenarios/cheapest-lamp.yaml --budget 12', 'the brightest for a given sum'],
      ['longnight size garden.yaml --spot lawn --lamps 12', 'one spot; a shopping list for twelve lamps'],
      [
        'longnight size garden.yaml --out results',
        'a search that was broken off goes on, by results/size-cache.txt (safe to delete)',
      ],
      [
        'longnight size garden.yaml --must-keep 0.9 --json',
        'nine of ten winters on file; exit code 3 where nothing does',
      ],
      [
        'longnight size garden.yaml --winters 100 --must-keep 0.8',
        'the cheapest shown to keep eight of ten winters, by winters that are made',
      ],
      ['longnight size scenarios/invented-garden.yaml --find capacitance', 'how small may the capacitor be?'],
      [
        'longnight size garden.yaml --find shade --lamp single --spot lawn',
        'how deep a shade does it survive?',
      ],
      ['longnight size garden.yaml --find inductor --lit-hours 8', 'which inductor for eight hours a night?'],
      [
        'longnight size scenarios/invented-garden.yaml --assign',
        'which of its lamps goes into which of its spots',
      ],
    ],
    options: [
      'spot',
      'lamp',
      'budget',
      'winters',
      'lamps',
      'find',
      'lit-hours',
      'assign',
      ...RESULT_OPTIONS,
      'details',
      'weather',
      ...WISH_OPTIONS,
      'whole-record',
    ],
    load: async () => (await import('./commands/size.ts')).sizeCommand,
  },
  {
    name: 'life',
    words: ['SCENARIO'],
    about:
      'how many winters each lamp lasts in each spot, what ends it, and what a new part or a lower charge does',
    examples: [
      [
        'longnight life scenarios/invented-garden.yaml',
        'in which winter does the promise first break, and why?',
      ],
      [
        'longnight life scenarios/invented-garden.yaml --limit 1.8..2.7 --lamp double',
        'the charge limit: light tonight against winters',
      ],
      ['longnight life garden.yaml --led-current 0.5..1.5 --capacitors 1..3', 'other currents, other banks'],
      ['longnight life garden.yaml --years 20 --never-cleaned', 'if nobody brushes the lid'],
      [
        'longnight life garden.yaml --lamp single --spot lawn --card',
        'what to do each year, and what one voltage in autumn means',
      ],
      ['longnight life scenarios/invented-climate.yaml --winters 20', 'by winters that are made: a chance'],
    ],
    options: [
      'years',
      'spot',
      'lamp',
      'limit',
      'led-current',
      'capacitors',
      'never-cleaned',
      'cheap-lamp',
      'card',
      'exact',
      'winters',
      ...RESULT_OPTIONS,
      'details',
      'weather',
      ...WISH_OPTIONS,
      'whole-record',
    ],
    load: async () => (await import('./commands/life.ts')).lifeCommand,
  },
  {
    name: 'fit',
    words: ['[SCENARIO]'],
    about: 'bench readings, a log or a diary of a lamp in service, or a discharge curve to parameters',
    examples: [
      ['longnight fit scenarios/bench-readings.yaml', 'what do the readings of the parts say?'],
      [
        'longnight fit garden.yaml --log january.csv --lamp single --spot lawn',
        'what does a log of the capacitor say?',
      ],
      [
        'longnight fit scenarios/invented-garden.yaml --log data-samples/diary.txt --lamp single --spot lawn',
        'what do the nights say on which it was seen to go out?',
      ],
      ['longnight fit garden.yaml --readings bench.csv --lamp single', 'readings from a CSV file'],
      [
        'longnight fit --discharge data-samples/discharge-curve.csv',
        'what does the discharge of a capacitor say? No scenario is needed',
      ],
      ['longnight fit garden.yaml --json', 'the same as JSON; null where there is no bound'],
    ],
    options: ['json', 'details', 'readings', 'log', 'lamp', 'spot', 'discharge', 'rated', 'current', 'ohms'],
    load: async () => (await import('./commands/fit.ts')).fitCommand,
  },
  {
    name: 'init',
    words: ['[FOLDER]'],
    about: 'begin a scenario of your own: asks for place, weather, promise, parts and what stands around',
    examples: [
      ['longnight init garden', 'asks, and writes garden/garden.yaml with a comment at every line'],
      [
        'longnight init garden --place 54,10,20 --weather export.csv --around house=S,6,5,10',
        'the same without a question',
      ],
      ['longnight init garden --have capacitor=100,2.7,2 --promise 4', 'with what lies in the drawer'],
    ],
    options: [...WISH_OPTIONS, 'weather', 'promise', 'least-light', 'wall-clock', 'around', 'have'],
    load: async () => (await import('./commands/init.ts')).initCommand,
  },
  {
    name: 'check',
    words: ['[SCENARIO...]'],
    about: 'check scenarios; every value, where it came from, and what the verdict hangs on',
    examples: [
      ['longnight check scenarios/invented-garden.yaml', 'is it sound, and what was assumed?'],
      ['longnight check garden.yaml balcony.yaml --json', 'several, as JSON'],
      [
        'longnight check scenarios/invented-garden.yaml --sensitivity',
        'which assumptions move the verdict most, and what to measure',
      ],
      ['longnight check garden.yaml --bench', 'what to buy, to wire and to measure before the lid is closed'],
      ['longnight check --schema > scenario.schema.json', 'so that an editor completes and checks keys'],
    ],
    options: ['json', 'schema', 'bench', 'sensitivity', 'spot', 'lamp'],
    load: async () => (await import('./commands/check.ts')).checkCommand,
  },
  {
    name: 'completion',
    words: ['SHELL'],
    about: 'print a script that completes commands, options and scenario files in bash or zsh',
    examples: [
      [
        'source <(longnight completion bash)',
        'the Tab key completes, in this shell; in ~/.bashrc, in every one',
      ],
      ['source <(longnight completion zsh)', 'the same in zsh, after compinit'],
    ],
    options: [],
    load: async () => (await import('./commands/completion.ts')).completionCommand,
  },
];
