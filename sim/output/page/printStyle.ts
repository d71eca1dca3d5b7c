import { LIGHT_PROPERTIES } from '../figures/figureStyle.ts';

/** The page on paper: the light theme, every trial, pictures whole, nothing that needs a pointer. */
export const PRINT_STYLE = `
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
