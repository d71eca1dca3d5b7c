import type { Arguments } from './Command.ts';
import type { OptionName } from './options.ts';

/** Options that were typed, each ready to be typed again. in: args; options, those that count */
export function typedAgain(args: Arguments, options: readonly OptionName[]): string[] {
  return options.flatMap((option) => {
    const values = args.all(option).filter((value) => value !== 'true' && value !== 'false');
    if (values.length > 0)
      return values.map((value) => `--${option} ${/^[\w.:=,/+-]+$/.test(value) ? value : `"${value}"`}`);
    return args.has(option) ? [`--${option}`] : [];
  });
}
