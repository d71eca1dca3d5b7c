import { InputProblem } from '../common/InputProblem.ts';
import { binaryKind } from './binaryKind.ts';
import { lineGuard } from './inputLimits.ts';

/** Text of a file and how its bytes were read. */
export interface DecodedText {
  text: string;
  encoding: 'UTF-8' | 'UTF-16' | 'Latin-1';
}

/**
 * The text a file's bytes stand for, without its byte order mark.
 *
 * in: file, name and bytes
 * out: the text and its encoding: UTF-16 by its mark, UTF-8 where the bytes are valid, else Latin-1
 * throws: FILE_EMPTY, FILE_NOT_TEXT, FILE_TOO_LARGE (a line)
 */
export function decodeText(file: { name: string; bytes: Uint8Array }): DecodedText {
  const { name, bytes } = file;
  const notText = (got: string): InputProblem =>
    new InputProblem({
      code: 'FILE_NOT_TEXT',
      file: name,
      got,
      expected: 'a text file with one row an hour',
      fix: 'save or unpack it as CSV.',
    });
  const kind = bytes[0] === 0x1f && bytes[1] === 0x8b ? 'a gzip archive' : binaryKind(bytes);
  if (kind !== undefined) throw notText(kind);
  let decoded: DecodedText;
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    const order = bytes[0] === 0xff ? 'utf-16le' : 'utf-16be';
    decoded = { text: new TextDecoder(order).decode(bytes), encoding: 'UTF-16' };
  } else {
    const zero = bytes.indexOf(0);
    if (zero >= 0) throw notText(`a zero byte at position ${zero + 1}`);
    try {
      decoded = { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'UTF-8' };
    } catch {
      decoded = { text: new TextDecoder('latin1').decode(bytes), encoding: 'Latin-1' };
    }
  }
  if (decoded.text.trim() === '') {
    throw new InputProblem({
      code: 'FILE_EMPTY',
      file: name,
      got: bytes.length === 0 ? 'a file of 0 bytes' : 'nothing but blanks',
      expected: 'a heading row and one row an hour',
      fix: 'export it again.',
    });
  }
  lineGuard(name)(decoded.text);
  const control = controlCharacter(decoded.text);
  if (control >= 0) throw notText(`a control character at position ${control + 1}`);
  return decoded;
}

/** Position of the first character no text file holds (other than tab, line breaks, form feed, end mark); -1 if none. */
function controlCharacter(text: string): number {
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code < 9 || (code > 13 && code < 32 && code !== 26)) return i;
  }
  return -1;
}
