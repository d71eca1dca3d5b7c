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

/** What the marks of all pictures look like, as CSS; colours by the custom properties of a theme. */
export const FIGURE_STYLE = `
.picture{display:block;width:100%;height:auto;overflow:visible;font:12px system-ui,"Segoe UI",Roboto,"Helvetica Neue","Noto Sans","DejaVu Sans",sans-serif;font-variant-numeric:tabular-nums}
.picture text{fill:var(--ink)}
.picture .axis{fill:var(--faint)}
.picture .strong{fill:var(--ink);font-weight:600}
.picture .heading{font-size:16px}
.picture .lightWords{fill:var(--lightWords)}
.picture .darkWords{fill:var(--darkWords)}
.picture .halo{paint-order:stroke;stroke:var(--surface);stroke-width:4px;stroke-linejoin:round}
.picture .end{text-anchor:end}
.picture .middle{text-anchor:middle}
.picture .grid{stroke:var(--line);stroke-width:1;fill:none}
.picture .gridStrong{stroke:var(--edge);stroke-width:1;fill:none}
.picture .onNight{stroke:var(--surface);stroke-width:1;stroke-opacity:.55;fill:none}
.picture .seam{stroke:var(--faint);stroke-width:1;stroke-dasharray:2 3;fill:none}
.picture .deep{fill:var(--deep)}
.picture .day{fill:var(--day)}
.picture .night{fill:var(--night)}
.picture .edge{fill:none;stroke:var(--edge);stroke-width:1.25}
.picture .lit{fill:var(--light)}
.picture .beyond{fill:url(#cross)}
.picture .tag{fill:var(--surface)}
.picture .dark{fill:var(--dark)}
.picture .hatched{fill:url(#hatch)}
.picture .fill-darkPale{fill:var(--darkPale)}
.picture .fill-lightPale{fill:var(--lightPale)}
.picture .fill-lightDeep{fill:var(--lightDeep)}
.picture .dotted{fill:url(#dots)}
.picture .slanted{fill:url(#slant)}
.picture .crossed{fill:url(#cross)}
.picture .outline{fill:none;stroke:var(--ink);stroke-width:1}
.picture .outlineSoft{fill:none;stroke:var(--edge);stroke-width:.75}
.picture .edged{stroke:var(--edge);stroke-width:.9}
.picture .failure{fill:var(--ink)}
.picture .capacitor{fill:none;stroke:var(--darkWords);stroke-width:1.75;stroke-linejoin:round}
.picture .band{fill:var(--darkWords);fill-opacity:.32;stroke:var(--darkWords);stroke-width:.75}
.picture .reachable{fill:none;stroke:var(--lightDeep);stroke-width:1}
.picture .limit{fill:none;stroke:var(--ink);stroke-width:1.25;stroke-dasharray:7 4}
.picture .limit2{fill:none;stroke:var(--ink);stroke-width:1.25;stroke-dasharray:2 3}
.picture .sun{fill:var(--light);fill-opacity:.85}
.picture .air{fill:none;stroke:var(--ink);stroke-width:1.25}
.picture .jar{fill:none;stroke:var(--lightDeep);stroke-width:1.25;stroke-dasharray:4 3}
.picture .airBand{fill:var(--faint);fill-opacity:.35;stroke:var(--faint);stroke-width:.75}
.picture .event{stroke:var(--ink);stroke-width:1}
.picture .filled{fill:url(#veil);stroke:var(--ink);stroke-width:.6}
.picture .path{fill:none;stroke:var(--lightDeep);stroke-width:2}
.picture .pathHidden{fill:none;stroke:var(--light);stroke-width:2;stroke-dasharray:1 5;stroke-linecap:round}
.picture .onDark{fill:#fff;font-weight:600}
.picture .shut{fill:var(--deep);shape-rendering:crispEdges}
.picture .step0{fill:var(--step0)}.picture .step1{fill:var(--step1)}.picture .step2{fill:var(--step2)}.picture .step3{fill:var(--step3)}
.picture .step4{fill:var(--step4)}.picture .step5{fill:var(--step5)}.picture .step6{fill:var(--step6)}.picture .step7{fill:var(--step7)}
.hatch-ground{fill:var(--dark)}.hatch-line{stroke:var(--darkHatch);stroke-width:1.4}
.dots-ground{fill:var(--darkPale)}.dots-mark{fill:var(--dark)}
.slant-ground{fill:var(--surface)}.slant-line{stroke:var(--darkWords);stroke-width:1.2}
.veil-light{stroke:#fff;stroke-width:1.3}.veil-dark{stroke:#000;stroke-width:1.3}
.cross-ground{fill:var(--lightPale)}.cross-line{stroke:var(--lightDeep);stroke-width:1}
`;

/** Patterns that tell marks apart without colour; once a page, or once a file. */
export const FIGURE_PATTERNS =
  '<defs>' +
  '<pattern id="hatch" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="hatch-ground" width="5" height="5"/><path class="hatch-line" d="M0 0V5"/></pattern>' +
  '<pattern id="dots" width="5" height="5" patternUnits="userSpaceOnUse"><rect class="dots-ground" width="5" height="5"/><circle class="dots-mark" cx="2.5" cy="2.5" r=".9"/></pattern>' +
  '<pattern id="slant" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)"><rect class="slant-ground" width="6" height="6"/><path class="slant-line" d="M0 0V6"/></pattern>' +
  '<pattern id="cross" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect class="cross-ground" width="5" height="5"/><path class="cross-line" d="M0 0V5M0 0H5"/></pattern>' +
  '<pattern id="veil" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="veil-light" d="M1 0V4"/><path class="veil-dark" d="M2.6 0V4"/></pattern>' +
  '</defs>';
