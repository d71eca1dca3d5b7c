import { DARK_PROPERTIES, FIGURE_STYLE, LIGHT_PROPERTIES } from '../figures/figureStyle.ts';

const SERIF =
  '"Iowan Old Style","Palatino Linotype",Palatino,"Book Antiqua",Georgia,"Noto Serif","DejaVu Serif",serif';
const SANS = 'system-ui,"Segoe UI",Roboto,"Helvetica Neue","Noto Sans","DejaVu Sans",sans-serif';

/** The page on paper: the light theme, every trial, pictures whole, nothing that needs a pointer. */
const PRINT_STYLE = `
@page{size:A4 landscape;margin:12mm}
@media print{
:root{${LIGHT_PROPERTIES};color-scheme:light;--paper:#fff;--surface:#fff}
*{-webkit-print-color-adjust:exact;print-color-adjust:exact}
body{font-size:10.5pt}
.top,main{max-width:none;padding:0}
.trial[hidden]{display:block!important}
.trial,.shared,.grounds,.bench{break-before:page;margin-top:0}
.trial>h2,.shared,.grounds,.bench{border-top:0}
.reader,.reading,.tools,.closer,.tableSpace{display:none!important}
.figure{break-inside:avoid;margin-top:16px}
.figure>.scroll{border:0;padding:0;overflow:visible}
.scroll{overflow:visible}
.stage{min-width:0}
.figure .picture{max-height:122mm}
figcaption{margin:1mm 0 2mm;max-width:none;font-size:9pt}
.about{margin-top:1mm}
.about summary{display:none}
.about dl{font-size:8pt;line-height:1.35;max-width:none;margin-top:1mm}
.card,.fact,.flags,tr,li{break-inside:avoid}
h2,h3,figcaption{break-after:avoid}
.trial .folded{break-inside:avoid}
.folded table{font-size:8pt}
th,td{padding:2px 6px}
/* One sheet a lamp. */
.bench{font-size:7pt;line-height:1.25;padding:0}
.bench h2{font-size:13pt;margin:0 0 1mm}
.bench h3{font-size:9pt;margin:2mm 0 .5mm}
.bench .pair{grid-template-columns:1fr 1fr;gap:0 8mm}
.bench .wiring .picture{max-height:42mm;min-width:0}
.bench p,.bench ul,.bench ol{margin:.5mm 0;max-width:none;padding-left:1.4em}
.bench p{padding:0}
.bench li{margin:0}
.bench table{font-size:7pt}
.bench th,.bench td{padding:.15mm 1.2mm}
.bench caption{display:none}
a{color:inherit;text-decoration:none}
}`;

/** The page's own style sheet: themes, type, layout from a phone to a desk, and print. */
export const PAGE_STYLE = `
:root{${LIGHT_PROPERTIES};color-scheme:light}
@media(prefers-color-scheme:dark){:root{${DARK_PROPERTIES};color-scheme:dark}}
*{box-sizing:border-box}
[hidden]{display:none!important}
html{scroll-behavior:smooth;-webkit-text-size-adjust:100%}
@media(prefers-reduced-motion:reduce){html{scroll-behavior:auto}}
body{margin:0;background:var(--paper);color:var(--ink);font:16px/1.55 ${SANS}}
h1,h2,h3{font-family:${SERIF};font-weight:600;line-height:1.2;margin:0;overflow-wrap:anywhere}
h1{font-size:clamp(1.9rem,5vw,3.1rem);letter-spacing:-.01em}
h2{font-size:clamp(1.5rem,3.4vw,2.1rem)}
h3{font-size:1.3rem}
a{color:var(--accent)}
:focus-visible{outline:3px solid var(--accent);outline-offset:2px;border-radius:3px}
.patterns{position:absolute}
.top,main{max-width:1180px;margin:0 auto;padding:0 clamp(16px,4vw,40px)}
.top{padding-top:clamp(28px,6vw,64px)}
.kind{margin:0 0 6px;color:var(--lightWords);font-weight:600;letter-spacing:.02em}
.promise{max-width:46em;margin:12px 0 0;color:var(--faint)}
.overview ul{list-style:none;margin:28px 0 0;padding:0;display:grid;gap:14px;grid-template-columns:repeat(auto-fit,minmax(min(100%,260px),1fr))}
@media(min-width:900px){.overview ul[data-lamps="1"],.overview ul[data-lamps="2"],.overview ul[data-lamps="4"]{grid-template-columns:repeat(2,1fr)}.overview ul[data-lamps="3"]{grid-template-columns:repeat(3,1fr)}}
.card{display:grid;grid-template-columns:1fr auto;gap:4px 12px;padding:14px 16px 10px;background:var(--surface);border:1px solid var(--line);border-radius:10px;color:inherit;text-decoration:none}
.card:hover{border-color:var(--edge)}
.card[aria-current]{border-color:var(--lightDeep);box-shadow:inset 0 3px 0 var(--lightDeep)}
.cardName{font-weight:600;overflow-wrap:anywhere;min-width:0}
.cardName .on{color:var(--faint);font-weight:400}
.cardVerdict{white-space:nowrap;font-weight:600}
.card[data-verdict="kept"] .sign{color:var(--lightDeep)}
.card .strip{grid-column:1/-1;margin-top:4px}
.cardCount{grid-column:1/-1;color:var(--faint);font-size:.9rem}
.trial{margin-top:56px;scroll-margin-top:12px}
.trial>h2{padding-top:18px;border-top:2px solid var(--ink)}
.verdict{font-weight:400}
.why{max-width:46em;margin:16px 0 0}
.flags{margin:16px 0 0;padding:12px 16px 12px 34px;background:var(--surface);border:1px solid var(--line);border-left:4px solid var(--lightDeep);border-radius:6px;max-width:50em}
.flags li::marker{content:"▲  ";font-size:.7em}
.facts{display:grid;grid-template-columns:repeat(auto-fit,minmax(148px,1fr));gap:18px 24px;margin:24px 0 0}
.fact{display:flex;flex-direction:column-reverse;justify-content:flex-end;border-left:1px solid var(--edge);padding-left:14px}
.fact dt{color:var(--faint);font-size:.88rem;line-height:1.35}
.fact dd{margin:0;font-variant-numeric:tabular-nums}
.fact b{font:600 1.9rem/1.1 ${SERIF}}
.figure{margin:48px 0 0}
.shared{margin-top:72px;padding-top:2px;border-top:2px solid var(--ink)}
.shared .figure{margin-top:24px}
figcaption{max-width:46em;margin:6px 0 14px;color:var(--faint)}
.scroll{overflow-x:auto;overscroll-behavior-x:contain}
.figure>.scroll{background:var(--surface);border:1px solid var(--line);border-radius:10px;padding:16px 14px 10px}
.stage{position:relative;min-width:820px}
.reader{position:absolute;cursor:crosshair;touch-action:pan-x pan-y}
.needle{position:absolute;top:-4px;bottom:-4px;width:2px;margin-left:-1px;background:var(--ink);pointer-events:none;box-shadow:0 0 0 1.5px var(--surface)}
.needle.frame{margin:0;background:none;border:2px solid var(--ink);border-radius:5px}
.needle.lying{top:auto;bottom:auto;left:-4px;right:-4px;width:auto;height:2px;margin:-1px 0 0}
.needle.frame.lying{margin:0}
.stage.upright{display:none;min-width:0;max-width:480px;margin:0 auto}
@media screen and (max-width:640px){.stage.across{display:none}.stage.upright{display:block}}
.reading{display:flex;flex-wrap:wrap;align-items:baseline;gap:4px 20px;min-height:3.4em;margin-top:10px;padding:10px 14px;background:var(--surface);border:1px solid var(--line);border-radius:8px;font-variant-numeric:tabular-nums}
.reading .place{font-weight:600;min-width:8.5em}
.reading .name{color:var(--faint);font-size:.88rem;margin-right:.4em}
.reading .steps{margin-left:auto;display:flex;gap:6px}
button{font:inherit;font-size:.88rem;color:var(--ink);background:var(--surface);border:1px solid var(--edge);border-radius:6px;padding:5px 11px;cursor:pointer;min-height:34px}
button:hover{border-color:var(--ink)}
button[aria-pressed="true"]{background:var(--ink);color:var(--paper);border-color:var(--ink)}
.tools{display:flex;flex-wrap:wrap;gap:8px;margin-top:10px}
.tableSpace .scroll{max-height:420px;overflow:auto;margin-top:10px}
details{margin-top:10px}
summary{cursor:pointer;color:var(--accent);width:fit-content;padding:4px 0}
.about dl,.terms{display:grid;grid-template-columns:minmax(6.5em,auto) 1fr;gap:4px 18px;margin:8px 0 0;max-width:56em;font-size:.94rem}
.about dt,.terms dt{color:var(--faint)}
.about dd,.terms dd{margin:0;overflow-wrap:anywhere;min-width:0}
.folded{margin-top:28px}
table{border-collapse:collapse;font-size:.9rem;font-variant-numeric:tabular-nums;background:var(--surface)}
section>.scroll>table>caption{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
td,th,.reading .name,.reading .value,.reading .place{unicode-bidi:isolate}
caption{text-align:left;color:var(--faint);padding:8px 0}
th,td{padding:5px 12px;border-bottom:1px solid var(--line);text-align:left;vertical-align:top}
th{font-weight:600;background:var(--surface)}
.number{text-align:right}
.grounds{margin:72px 0 64px;padding-top:18px;border-top:2px solid var(--ink)}
.bench{margin:72px 0 0;padding-top:18px;border-top:2px solid var(--ink)}
.grounds h3,.bench h3{margin-top:32px}
.bench .sealing,.bench .ways{padding-left:1.2em;max-width:60em}
.wiring .picture{min-width:560px}
.pair{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,400px),1fr));gap:0 48px}
.cautions,.assumptions,.sources{padding-left:1.2em;max-width:60em}
.assumptions,.sources{font-size:.94rem}
.assumptions{columns:2 26em;column-gap:40px}
.assumptions li,.sources li,.cautions li{break-inside:avoid;margin:.25em 0;overflow-wrap:anywhere}
.closer{margin-top:14px;padding:14px;background:var(--surface);border:1px solid var(--line);border-radius:10px}
.closerTop{display:flex;flex-wrap:wrap;gap:8px;align-items:center;margin-bottom:8px}
.closerTop .range{font-weight:600;margin-right:auto}
.closer .u-legend{font:inherit;font-size:.88rem;text-align:left}
.closer .u-legend th,.closer .u-legend td{border:0;padding:2px 6px 2px 0}
@media(max-width:640px){.facts{grid-template-columns:repeat(2,1fr)}.reading .steps{margin-left:0;width:100%}.fact b{font-size:1.55rem}}
${FIGURE_STYLE}${PRINT_STYLE}`;
