import type { Property } from '../properties/Property.ts';
import { EXTREME_FUZZ } from './extreme.property.ts';
import { RUN_FUZZ } from './run.property.ts';
import { TERMINAL_FUZZ } from './terminal.property.ts';
import { WEATHER_FUZZ } from './weather.property.ts';

/** What holds however an input is damaged; `runs` say in which proportion each is tried. */
export const FUZZ: readonly Property[] = [...RUN_FUZZ, ...EXTREME_FUZZ, ...WEATHER_FUZZ, ...TERMINAL_FUZZ];
