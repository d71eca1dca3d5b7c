import { basename, isAbsolute, relative, resolve, sep } from 'node:path';
import { Document, isMap, isScalar, parseDocument, visit, type YAMLMap } from 'yaml';
import { readDocument } from '../common/document.ts';
import { KEPT_BESIDE_PART } from '../scenario/choices.ts';
import { REPLACED_KEYS } from '../scenario/partSection.ts';
import type { PartKind } from '../scenario/parts.ts';
import type { Json, Scenario } from '../scenario/Scenario.ts';
import type { Chosen, Design } from './Design.ts';
import type { DesignSpace } from './DesignSpace.ts';

/** Where a design's scenario is to lie, and what it is called. */
export interface DesignFile {
  /** Absolute. */
  folder: string;
  /** Of the scenario, which decides its folder under out/. */
  name: string;
}

/** Of a schedule one of two stands. */
const OTHER_END: Readonly<Record<string, string>> = { hours: 'until', until: 'hours' };

/**
 * The scenario with one design as its only lamp, in its only spot, as YAML: what `run` runs to the same numbers. It is
 * the file as the maker wrote it, with his comments (but where it repeats itself by anchors), without choices, and with
 * its file names as they are seen from where it is to lie.
 *
 * in: space; design, of that space; to, where it is to lie
 * out: text, ending in a line break; no absolute path
 */
export function designScenario({ scenario, present }: DesignSpace, design: Design, to: DesignFile): string {
  const document = documentOf(scenario);
  const root = document.contents as unknown as YAMLMap;
  root.delete('choices');
  setFirst(document, root, 'name', to.name);
  const lamp = onlyEntry(document, root, 'lamps', present.name);
  const spot = onlyEntry(document, root, 'spots', design.spot.name);
  for (const [section, chosen] of bySection(design.chosen)) {
    if (section === 'spot') continue;
    const node = section === 'stand' ? spot : mapAt(document, lamp, section);
    setChosen(document, node, section, chosen);
  }
  moveFiles(root, scenario.folder, to.folder);
  const made = [
    ` Made by size from ${basename(scenario.file)}:`,
    ...wordsOf(design).map((line) => `   ${line}`),
  ];
  document.commentBefore = [...made, document.commentBefore].filter(Boolean).join('\n');
  return document.toString({ lineWidth: 110 });
}

/** A scenario as it was written, nothing in it meant twice. */
function documentOf({ written, file }: Scenario): Document {
  if (!(written instanceof Uint8Array)) return new Document(written);
  const document = parseDocument(new TextDecoder().decode(written));
  return repeatsItself(document)
    ? new Document(readDocument({ name: file, bytes: written }).value)
    : document;
}

/** Whether a part of it is written once and meant twice. */
function repeatsItself(document: Document): boolean {
  let repeats = false;
  visit(document, {
    Alias: () => {
      repeats = true;
      return visit.BREAK;
    },
  });
  return repeats;
}

/** Sets a key, behind `format` where it is new. */
function setFirst(document: Document, map: YAMLMap, key: string, value: Json): void {
  if (map.has(key)) map.set(key, value);
  else map.items.splice(1, 0, document.createPair(key, value));
}

/** The entry of that name in a map of the root, all others taken out with what is said of them. */
function onlyEntry(document: Document, root: YAMLMap, key: string, name: string): YAMLMap {
  const map = root.get(key) as YAMLMap;
  const at = map.items.findIndex((pair) => keyOf(pair.key) === name);
  // What stands above the first is the map's own comment.
  if (at > 0) map.commentBefore = null;
  map.items = [map.items[at]!];
  return mapAt(document, map, name);
}

function keyOf(key: unknown): string {
  return String(isScalar(key) ? key.value : key);
}

/** The map below a key; a new one where there is none. */
function mapAt(document: Document, map: YAMLMap, key: string): YAMLMap {
  const found = map.get(key);
  if (isMap(found)) return found as YAMLMap;
  const made = document.createNode({}) as YAMLMap;
  made.flow = true;
  map.set(key, made);
  return made;
}

/** The keys that were chosen of each section, in their order. */
function bySection(chosen: readonly Chosen[]): Map<string, [key: string, value: Json][]> {
  const sections = new Map<string, [string, Json][]>();
  for (const { key: path, value } of chosen) {
    const [section, key = ''] = path.split('.') as [string, string?];
    sections.set(section, [...(sections.get(section) ?? []), [key, value]]);
  }
  return sections;
}

/** Writes what was chosen into a section, and takes out what it takes the place of. */
function setChosen(document: Document, node: YAMLMap, section: string, chosen: [string, Json][]): void {
  if (chosen.some(([key]) => key === 'part')) {
    const kept = ['part', ...(KEPT_BESIDE_PART[section] ?? [])];
    node.items = node.items.filter((pair) => kept.includes(keyOf(pair.key)));
  }
  const replaced = REPLACED_KEYS[section as PartKind] ?? {};
  for (const [key, value] of chosen) {
    if (value === null) node.delete(key);
    else node.set(key, flowing(document, value));
    const others = section === 'schedule' ? [OTHER_END[key] ?? key] : (replaced[key] ?? []);
    for (const other of others) if (other !== key) node.delete(other);
  }
}

/** A value on one line. */
function flowing(document: Document, value: Json): unknown {
  return typeof value === 'object' ? document.createNode(value, { flow: true }) : value;
}

/** Files are named as they are seen from another folder. */
function moveFiles(root: YAMLMap, from: string, to: string): void {
  for (const key of ['weather', 'spots', 'parts']) {
    const section = root.get(key);
    if (!isMap(section)) continue;
    visit(section, {
      Pair: (_, pair) => {
        if (keyOf(pair.key) !== 'file' || !isScalar(pair.value)) return;
        const seen = relative(to, resolve(from, String(pair.value.value)));
        if (!isAbsolute(seen)) pair.value.value = seen.split(sep).join('/');
      },
    });
  }
}

/** What was chosen, a line each. */
function wordsOf({ chosen, spot }: Design): string[] {
  if (chosen.length === 0) return [`the lamp as it is, on ${spot.name}`];
  return chosen.map(({ key, value, unit }) => {
    const said = typeof value === 'object' ? JSON.stringify(value ?? 'none') : String(value);
    return `${key} ${said}${typeof value === 'number' && unit !== undefined && unit !== '1' ? ` ${unit}` : ''}`;
  });
}
