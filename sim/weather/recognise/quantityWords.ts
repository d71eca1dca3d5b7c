import type { StampPart } from '../../tables/stampReader.ts';
import type { QuantityName } from './DetectedFormat.ts';

/**
 * A table of patterns written as text, one a line: what a match means, two blanks or more, the pattern.
 *
 * in: text, raw
 * out: the rows in their order
 */
export function patternTable<T extends string>(text: string): [pattern: RegExp, means: T][] {
  return text
    .trim()
    .split('\n')
    .map((row) => row.trim().split(/ {2,}/) as [T, string])
    .map(([means, pattern]) => [new RegExp(pattern), means]);
}

function strengths(text: string): [pattern: RegExp, strength: number][] {
  return patternTable(text).map(([pattern, strength]) => [pattern, Number(strength)]);
}

/** What the words of a heading say for and against a quantity; patterns are tried on `normaliseHeading`. */
export interface QuantityWords {
  /** How strongly each pattern says that the column is this quantity, 0 to 100. */
  yes: readonly [pattern: RegExp, strength: number][];
  /** Words that say it is something else. */
  no: RegExp;
}

const NOT_LIGHT =
  /extra ?ter|\betr\b|long ?wave|infra|\blw|lang(e )?welli|langbolge|\blwr?\b|\birr? ?sky|thermal|warme|terrestri|atmosph\w* (radiation|strahl)|gegenstrahl|\buv|ultra|\bpar\b|photo|\bnet\b|netto|balan[cs]|\bbil[aj]n|reflect|reflex|reflekt|outgoing|upw(ard|elling)|\bsw ?(up|out)\b|albedo|tilt|inclin|genei?gt|\bplane\b|\bpoa\b|\bgti\b|clear ?sk|clearsky|clr ?sky|cloud ?free|\bpot\b|potential|\bclear\b|\bcs\b|klarhimmel|\btoa\b|top of|\bmax|(?<!\d )\bmin\b|minim|std|sigma|deviation|uncert|flag|quality|qualit|kvalit|kwalit|\bqc\b|source|\bcode|duration|duur\b|dauer\b|duree|durata|duracion|varaktighet|varighed|sunshine|sonnenschein|zonneschijn|solsken|insolation hours|zenith|\bcount|station nam|stationsnam|sensor|\btemp|cloud|\bpv\b|photovolt|inverter|wechselrichter|\byield\b|ertrag|precipitab|optical|index\b|percent/;

const NO_TEMPERATURE =
  /dew|wet|\bsoil|\bground|grass|boden|\bbodem|jord|mark(temp|nah)|maan\w*lampo|\bsol\b temp|suelo|suolo|\bsolo\b|grunt|gleb|pud[ay]|panel|modul|\bcell|surface|oberflach|overflade|\bsea\b|water|wasser|vesi|feel|chill|apparent|gefuhlt|gevoels|(?<!\d )\bmin|\bmax|\bthy?n\b|dauw|tau ?punkt|dagg|dugg|kaste|rosee|rocio|rugiada|rosy|orvalho|rosn|inside|indoor|innen|logger|batter|\bbody\b|\bcase\b|housing|sensor temp|virtual|potential|\bheat|\btd\b|\btw\b|humid|flag|quality|qualit|kvalit|kwalit|\bqc\b|code|source|std|uncert|illumin|radiat/;

/**
 * Words of weather services and of the trade for each quantity, in English, German, Dutch, Swedish, Danish,
 * Norwegian, Finnish, French, Spanish, Italian, Portuguese, Polish and Czech. Common practice, no source.
 */
export const QUANTITY_WORDS: Readonly<Record<QuantityName, QuantityWords>> = {
  ghi: {
    yes: strengths(String.raw`
      100  \bghi\b
      100  global (horizontal |solar |sun )*(irrad|radiat|insol|rad\b|ener|light)
      100  global ?(horizontal|stra[ahl]|instr|innstr|strlg|sateily|str[ao]a?l)|globals\w*|globalin+str\w*
      100  globale (horizontal|sonnen|zonne|stra|einstra|instra)|horizontal global
      100  (rayonnement|irradiance|eclairement|ensoleillement) (solaire )?global|ray(onn)? glob
      100  (radiacion|irradiancia|irradiacion|radiacao|irradiacao|insolacion) (solar )?global|rad glob
      100  (radiazione|irraggiamento|irradianza|irradiazione|rad) (solare )?glob
      100  (promieniowan\w*|natezenie|naslonecznienie) (sloneczne )?(globalne|calkowite)|calkowite promien
      100  globalni (slun\w* )?(zareni|radiac|ozareni|sluneč)|globalniho (slun\w* )?zar
      95  kokonaissat|globaalisat|auringon (kokonais)?sateily|auringonsateily
      90  \b(g h|gh|g hor|g 0|ghz|glob|k ?glob|qg|eg h|egh|rsds|swdn?|sw ?dn|sw ?dwn|glo|gsr)\b
      90  \b(sw|kw|k|short ?wave|shortwave) ?(radiation |rad |irrad\w* |flux )*(in|down|dn|incoming|downw\w*|downwell\w*)\b|\b(incoming|down(ward|welling)) (solar|short ?wave)
      85  short ?wave (radiation|irradiance|from sky)|\bglobal ?rad\w*|radiacion incidente
      80  kortvåg|kortbolge|kortvagsinstr|korte? ?golvig|kurzwellig\w* (ein|glob)
      75  \bsolar ?(radiation|irrad\w*|rad|energy|power|flux|insol\w*)\b|\bs ?rad\b|\bsolrad\b
      75  sonnenstra|sonneneinstra|solarstra|einstrahl|bestrahlungsst|zonnestra|zonne ?instra|instraling
      75  solinstr|solstra|sol ?stral|instra(l|a)|innstral|indstral
      75  (rayonnement|irradiance|eclairement) solaire|(radiacion|irradiancia|irradiacion|radiacao|irradiacao) solar|(radiazione|irraggiamento|irradianza) solare?|promien\w* slon|slun\w* (zaren|radiac)|sateily
      75  pyranom|solarimet
      65  \birradian[cs]e?\b|\birradianc|\binsolation\b|\bglobal\b|\bglobale?\b|\bglobalni\b
      50  \b(rg|rs|rsol|r s|g|kin|kdown|insol|solar|radiation|strahlung|straling|stralning|radiacion|radiacao|radiazione|rayonnement|rad|sol|sun ?light)\b
      60  illumin|\blux\b|\bk?lx\b|light ?(level|intens\w*)?|beleuchtung|belysning|verlichtings|eclairement lum
      30  \b(q|ig|i g|h|it)\b
    `),
    no: new RegExp(
      `${NOT_LIGHT.source}|direct|direkt|beam|normal|\\bdni\\b|diffus|difus|\\bdhi\\b|haja|himmels|himmel|rozpros|rozptyl|difuz|\\bgd\\b|\\bgb|scatter`,
    ),
  },
  dni: {
    yes: strengths(String.raw`
      100  \bdni\b|\bbni\b
      98  (direct|beam) (solar )?normal|normal (direct|beam|incidence)|direktnormal
      70  (direct|beam)( solar| sun)* ?(irrad|radiat|insol|rad\b|solar)
      90  \b(gbn|gb n|g b n|bn|b n|gn|ebn|swdni?r?|ib n|ibn|idn|rbn|bhn)\b
      85  direkt\w* ?(normal|stra|ein|instr|sonn|sol)|direct\w* (stra|zon)|(rayonnement|irradiance) direct|direct[ao] normal|(radiacion|irradiancia|radiacao|irradiacao) (solar )?direct|radiazione (solare )?dirett|(promien\w*) bezposr|prime (slun\w* )?zar|suora sateily|suoran? sat
      50  \b(direct|beam|direkt\w*|direct[ao]|diretta|bezposrednie|gb|g b)\b
    `),
    no: new RegExp(
      `${NOT_LIGHT.source}|illumin|diffus|difus|horizont|global|\\bbhi\\b|\\bb h\\b|\\bgb h\\b|extinct`,
    ),
  },
  bhi: {
    yes: strengths(String.raw`
      98  \bbhi\b|\b(direct|beam|direkt\w*|direct[ao]|diretta|bezposrednie|dirett\w*|prime)\b.*horizont|horizont\w*.*\b(direct|beam|direkt\w*|direct[ao]|diretta)\b
      60  \b(gb h|gbh|b h|bh|kdir|swdirh?|ib h|ibh|rbh|fdir)\b
    `),
    no: new RegExp(`${NOT_LIGHT.source}|illumin|diffus|difus|global|normal|\\bdni\\b|extinct`),
  },
  dhi: {
    yes: strengths(String.raw`
      100  \bdhi\b|\bdif h
      80  \bdifu?\b
      95  diffus|difus|himmelsstrahl|hajasat|rozpros\w*|rozptyl|difuz
      85  \b(gd h|gdh|gd|g d|g d h|d h|dh|gdif|dif|swdif|swd dif|kdif|rd|id h|idh|rdif|edh)\b
    `),
    no: new RegExp(`${NOT_LIGHT.source}|illumin|\\bdirect|\\bdirekt|beam|\\bdni\\b`),
  },
  air_temperature: {
    yes: strengths(String.raw`
      100  \b(air|luft|ambient|outdoor|outside|aussen|buiten|ute|ude|ulko|ilman|exterior|esterna|dry ?bulb|externa|drybulb|2 ?m)\w* ?(temp|lampo)|temp\w* (of )?(the )?(air|luft|ambient|outdoor|outside|dry ?bulb|2m)|dry ?bulb
      100  luft ?temp|lucht ?temp|lufttemp|aussentemp|buitentemp|utetemp|udetemp|ulkolampo|ilman ?lampo|lampotila
      100  temp\w* (de l |de |del |dell |d )?(l )?(air|aire|aria|ar)\b|temp\w* (powietrza|vzduchu|sous abri)|teplota (vzduchu)?|temp powietrza
      90  \b(t2m|t ?2m|tair|t ?air|air ?t|air (deg)?c|airt\w*|tamb|t ?amb|ta|tl|tdry|dbt|tdb|t db|temp ?air|temp ?out|t ?out|tt|tas|tmp|t2|temp2m|2m)\b
      80  \btemp(erature|eratur|eratuur|eratura|eratuuri)?\b|\btemp
      45  \b(t|deg ?c|celsius|air|t c|t ?avg|t ?mean|t ?mittel)\b|^(aussen|draussen|outdoor|outside|buiten)( [cf])?$
    `),
    no: NO_TEMPERATURE,
  },
  snow_depth: {
    yes: strengths(String.raw`
      100  snow ?(lying|pack|cover)? ?(depth|height|thick)|snow ?d\b|depth of snow|snowd\w*|total snow
      100  schnee ?hohe|schneedecke\w* hohe|sneeuw ?(hoogte|dikte|dek)|sno ?djup|sne ?dybde|snodybd|lumen ?syvyys|lumensyv|snedjup
      100  (hauteur|epaisseur) (de )?(la )?neige|(espesor|altura|profundidad|profundidade) (de )?(la )?(nieve|neve)|(spessore|altezza|profondita) (della )?neve|(grubosc|wysokosc) (pokrywy )?snie\w*|vyska (celkove )?sne\w*
      45  \b(snow|schnee|sneeuw|sno|sne|lumi|neige|nieve|neve|snieg|snih|sd|snd|hs|sde)\b
    `),
    no: /days since|since|fall|fresh|new snow|neuschnee|nysno|water|wasser|equiv|swe\b|flag|qualit|kvalit|code|dens|melt|temp|intens|albedo|type|class|indicator/,
  },
  rain: {
    yes: strengths(String.raw`
      90  \b(rain|precip\w*)( fall)? ?(amount|sum|total|depth|mm|rate|accum\w*|intens\w*)?\b|\brainfall\b
      90  niederschlag|neerslag|nederbord|nedbor|sademaara|sateen|\bsade\b|precipitac|precipitaz|precipita[ct]|pluie|lluvia|pioggia|chuva|\bopad|srazk|regen ?(menge|hoogte|hohe|val)|\bregn
      60  \b(rr|rrr|prec|pcp|prcp|ppt|tp|regen|r mm|precip|prec mm)\b
    `),
    no: /duration|dauer|duur|duree|durata|varaktig|varighed|kesto|precipitab|type|\bart\b|occur|class|\bcode|flag|qualit|kvalit|yes|probab|prob\b|indicator|indikator|quantity time|period|snow ?depth|rain gauge volt|temp|height of/,
  },
  wind: {
    yes: strengths(String.raw`
      100  wind ?(speed|spd|vel\w*|force)|speed of (the )?wind|windgeschw|wind ?snelheid|vind ?hast|vind ?styrke|tuulen ?nop|tuulennopeus
      100  vitesse (moyenne )?(du )?vent|velocidad (media )?(del )?viento|velocita (media )?(del )?vento|velocidade (media )?(do )?vento|predkosc (\w+ )?wiatru|rychlost (\w+ )?vetru|vent moyen
      80  \b(ws|wspd|wsp|wind ?s|ff|ff10|ws10m|ws10|ws2m|sfcwind|w spd|wind10|u10)\b
      50  \b(wind|vind|viento|vento|vent|wiatr|vitr|tuuli)\b
      20  \b(u|v)\b
    `),
    no: /dir|richt|rikt|retning|suunta|gust|\bmax|\bmin\b|boe\b|boen|boee|stoot|by(ar|ig|vind)?\b|rafale|racha|raffica|rajada|poryw|naraz|chill|flag|qualit|kvalit|code|std|deviation|kierunek|smer|run\b|power|energy|puuska/,
  },
};

export const QUANTITIES = Object.keys(QUANTITY_WORDS) as QuantityName[];

/** Headings of columns that only speak about another one. */
export const FLAG_WORDS =
  /\b(flag|flags|quality|qualitat\w*|qualite|kvalitet\w*|kwaliteit|calidad|qualita|qualidade|jakosc|laatu|qc|qa|qn|qf|status|source|uncert\w*|std|stdev|sigma|remark\w*|bemerk\w*|note|notes|comment\w*)\b/;

/** Words for the parts of a time stamp, on `normaliseHeading`; common practice, no source. */
export const STAMP_WORDS = patternTable<StampPart['part'] | 'date'>(String.raw`
  day of year  day of (the )?year|\bdoy\b|\bjday\b|julian|tag (des jahres|im jahr)|dag (van het jaar|pa aret)|\bjul\b|day number|daynum|paivan?nro
  hour of year  hour of (the )?year|stunde (des jahres|im jahr)
  hhmm  \bhhmm|\bhh mm\b|\btime hhmm
  date  \b(yyyy ?mm ?dd|yyyymmdd\w*|yymmdd|date|datum|dato|fecha|data|paiva|paivamaara|pvm|time ?stamp|datetime|date ?time|zeit\w*|zeitpunkt|tijdstip|tidpunkt|tidspunkt|horodat\w*|instant|czas|cas|when|logged|observed|observation time|valid time|period|interval|local time|utc|time utc|timestamp\w*|stamp|start|end|begin\w*|from|to|von|bis|tid|tijd|aika|temps|tiempo|tempo)\b
  year  \b(year|jahr|jaar|ar|aar|vuosi|annee|an|ano|anno|rok|yyyy|yr|yy)\b
  month  \b(month|monat|maand|manad|maned|kuukausi|kk|mois|mes|mese|miesiac|mesic|mo|mon|mm|mnth|mnd)\b
  day  \b(day|tag|dag|paiva|pv|jour|dia|giorno|dzien|den|dd|dy|mday)\b
  minute  \b(minute|minutes|minuut|minuten|minut|minuter|minutter|minuutti|minuto|minuti|minuta|min|mn|mi)\b
  second  \b(second|seconds|sekunde|sekund|sekunti|seconde|segundo|secondo|sekunda|vterina|sec|ss|sek)\b
  hour  \b(hour|hours|hr|hrs|hh|h|stunde|uur|time|timme|kl|klokken|klokkeslett|tunti|klo|heure|heures|hora|ora|godzina|godz|hodina|std|uhrzeit|uhr|tid|tijd|aika|zeit)\b
`);
