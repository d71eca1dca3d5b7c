/** The colours of one theme. Amber is light, deep blue is dark; everything else is paper and ink. */
export interface Theme {
  /** Behind everything. */
  paper: string;
  /** Behind a picture. */
  surface: string;
  ink: string;
  /** Words of less weight; at least 4.5 to 1 on paper and surface. */
  faint: string;
  /** Hairlines. */
  line: string;
  /** Lines that bound something: at least 3 to 1 on the surface. */
  edge: string;
  /** Day, in a picture of nights. */
  day: string;
  /** Night in which nothing is promised. */
  night: string;
  /** The lamp's light, the sun's light. */
  light: string;
  /** The same, weaker and stronger. */
  lightPale: string;
  lightDeep: string;
  /** Words in the hue of light; at least 4.5 to 1. */
  lightWords: string;
  /** Promised and dark. */
  dark: string;
  /** The hatch over it, and its outline. */
  darkHatch: string;
  /** Words and lines in the hue of dark; at least 4.5 to 1. */
  darkWords: string;
  darkPale: string;
  /** Night behind hours of light, the same dark in both themes. */
  deep: string;
}

export const LIGHT_THEME: Theme = {
  paper: '#f7f3ea',
  surface: '#fdfbf6',
  ink: '#1a2233',
  faint: '#565f75',
  line: '#e2dccd',
  edge: '#8a8fa0',
  day: '#fbf1da',
  night: '#dbe0ec',
  light: '#eba427',
  lightPale: '#f7d694',
  lightDeep: '#b26a08',
  lightWords: '#8a5100',
  dark: '#17213d',
  darkHatch: '#7f92cc',
  darkWords: '#2c4a92',
  darkPale: '#b9c5e4',
  deep: '#1f2a47',
};

export const DARK_THEME: Theme = {
  paper: '#0c111d',
  surface: '#121929',
  ink: '#ece8dd',
  faint: '#a5aec3',
  line: '#263048',
  edge: '#6b7793',
  day: '#1d2231',
  night: '#26324f',
  light: '#f2b14c',
  lightPale: '#7d5f2d',
  lightDeep: '#ffd493',
  lightWords: '#f5c777',
  dark: '#02050c',
  darkHatch: '#8ea6ee',
  darkWords: '#a3b7f2',
  darkPale: '#3b4c7e',
  deep: '#0a1020',
};

/** Light in the sky and on a cell, from none to the full sun of summer, by steps that let a dull winter be told apart. */
export const LIGHT_STEPS_W_M2 = [2, 20, 50, 100, 200, 350, 550, 800] as const;
const LIGHT_RAMP = ['#4a5270', '#736c6b', '#9a8157', '#c29749', '#e3a73a', '#f4bd52', '#fad587', '#fff1c9'];

/**
 * A theme as CSS custom properties.
 * in: theme
 */
function properties(theme: Theme): string {
  const named = Object.entries(theme).map(([name, colour]) => `--${name}:${colour}`);
  return [...named, ...LIGHT_RAMP.map((colour, k) => `--step${k}:${colour}`)].join(';');
}

/** The properties of either theme, as the insides of a CSS rule. */
export const LIGHT_PROPERTIES = properties(LIGHT_THEME);
export const DARK_PROPERTIES = properties(DARK_THEME);
