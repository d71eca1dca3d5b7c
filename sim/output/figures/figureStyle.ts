/** The colours of both themes, the light one's first. Amber is light, deep blue is want of it; else paper and ink. */
const COLOURS = {
  /** Behind everything. */
  paper: ['#f7f3ea', '#0c111d'],
  /** Behind a picture. */
  surface: ['#fdfbf6', '#121929'],
  ink: ['#1a2233', '#ece8dd'],
  /** Words of less weight; at least 4.5 to 1 on paper and surface. */
  faint: ['#565f75', '#a5aec3'],
  /** Hairlines. */
  line: ['#e2dccd', '#263048'],
  /** Lines that bound something: at least 3 to 1 on the surface. */
  edge: ['#8a8fa0', '#6b7793'],
  /** Day, in a picture of nights. */
  day: ['#fbf1da', '#1d2231'],
  /** Night in which nothing is promised. */
  night: ['#dbe0ec', '#26324f'],
  /** The lamp's light, the sun's light. */
  light: ['#eba427', '#f2b14c'],
  /** The same, weaker and stronger. */
  lightPale: ['#f7d694', '#7d5f2d'],
  lightDeep: ['#b26a08', '#ffd493'],
  /** Words in the hue of light; at least 4.5 to 1. */
  lightWords: ['#8a5100', '#f5c777'],
  /** Promised, dim or out. */
  short: ['#17213d', '#02050c'],
  /** The hatch over it, and its outline. */
  shortHatch: ['#7f92cc', '#8ea6ee'],
  /** Words and lines in the hue of short hours: links, the capacitor; at least 4.5 to 1. */
  accent: ['#2c4a92', '#a3b7f2'],
  shortPale: ['#b9c5e4', '#3b4c7e'],
  /** Night behind hours of light, the same dark in both themes. */
  deep: ['#1f2a47', '#0a1020'],
} as const;

/** Light in the sky and on a cell, from none to the full sun of summer, by steps that let a dull winter be told apart. */
export const LIGHT_STEPS_W_M2 = [2, 20, 50, 100, 200, 350, 550, 800] as const;
const LIGHT_RAMP = ['#4a5270', '#736c6b', '#9a8157', '#c29749', '#e3a73a', '#f4bd52', '#fad587', '#fff1c9'];

function properties(theme: 0 | 1): string {
  const named = Object.entries(COLOURS).map(([name, pair]) => `--${name}:${pair[theme]}`);
  return [...named, ...LIGHT_RAMP.map((colour, k) => `--step${k}:${colour}`)].join(';');
}

/** A theme's colours as CSS custom properties, the insides of a rule. */
export const LIGHT_PROPERTIES = properties(0);
export const DARK_PROPERTIES = properties(1);

/** What the marks of all pictures look like, as CSS; colours by the custom properties of a theme. */
export const FIGURE_STYLE = `
.picture{display:block;width:100%;height:auto;overflow:visible;font:12px system-ui,"Segoe UI",Roboto,"Helvetica Neue","Noto Sans","DejaVu Sans",sans-serif;font-variant-numeric:tabular-nums}
.picture text{fill:var(--ink)}
.picture .axis{fill:var(--faint)}
.picture .strong{fill:var(--ink);font-weight:600}
.picture .heading{font-size:16px}
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
.picture .short{fill:var(--short)}
.picture .hatched{fill:url(#hatch)}
.picture .fill-shortPale{fill:var(--shortPale)}
.picture .fill-lightPale{fill:var(--lightPale)}
.picture .fill-lightDeep{fill:var(--lightDeep)}
.picture .dotted{fill:url(#dots)}
.picture .slanted{fill:url(#slant)}
.picture .crossed{fill:url(#cross)}
.picture .outline{fill:none;stroke:var(--ink);stroke-width:1}
.picture .outlineSoft{fill:none;stroke:var(--edge);stroke-width:.75}
.picture .edged{stroke:var(--edge);stroke-width:.9}
.picture .solid{fill:var(--ink)}
.picture .capacitor{fill:none;stroke:var(--accent);stroke-width:1.75;stroke-linejoin:round}
.picture .band{fill:var(--accent);fill-opacity:.32;stroke:var(--accent);stroke-width:.75}
.picture .reachable{fill:none;stroke:var(--lightDeep);stroke-width:1}
.picture .limit{fill:none;stroke:var(--ink);stroke-width:1.25;stroke-dasharray:7 4}
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
.hatch-ground{fill:var(--short)}.hatch-line{stroke:var(--shortHatch);stroke-width:1.4}
.dots-ground{fill:var(--shortPale)}.dots-mark{fill:var(--short)}
.slant-ground{fill:var(--surface)}.slant-line{stroke:var(--accent);stroke-width:1.2}
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
