import type { TableSource } from '../tables/TableSource.ts';
import { type NormalFormPlace, placeOfNormalForm, readNormalForm } from './normalForm.ts';
import type { WeatherRecord } from './WeatherRecord.ts';

/** A larger file is no normal form of this tool. */
const LARGEST = 1 << 27;

/** A record of the normal form, and the place its file states. */
export interface OwnRecord {
  record: WeatherRecord;
  place?: NormalFormPlace;
}

/**
 * The record of a single file of the normal form; undefined for any other.
 *
 * in: sources, the files of one record
 * throws: what readNormalForm throws
 */
export function ownRecord(sources: readonly TableSource[]): OwnRecord | undefined {
  const [source, ...others] = sources;
  if (source === undefined || others.length > 0 || source.size > LARGEST) return undefined;
  const head = new TextDecoder('latin1').decode(source.readAt(0, 400));
  if (!/^(?:\u00ef\u00bb\u00bf)?start_utc,.*weather_mark/.test(head)) return undefined;
  const file = { name: source.name, bytes: source.readAt(0, source.size) };
  const record = readNormalForm(file);
  if (record === undefined) return undefined;
  const place = placeOfNormalForm(file);
  return place === undefined ? { record } : { record, place };
}
