const KINDS: readonly [kind: string, start: readonly number[]][] = [
  ['a zip archive (a spreadsheet is one too)', [0x50, 0x4b, 0x03, 0x04]],
  ['a PNG image', [0x89, 0x50, 0x4e, 0x47]],
  ['a JPEG image', [0xff, 0xd8, 0xff]],
  ['a GIF image', [0x47, 0x49, 0x46, 0x38]],
  ['a PDF', [0x25, 0x50, 0x44, 0x46]],
  ['an old spreadsheet', [0xd0, 0xcf, 0x11, 0xe0]],
  ['a grid of scientific data (HDF5 or netCDF)', [0x89, 0x48, 0x44, 0x46]],
  ['a grid of scientific data (netCDF)', [0x43, 0x44, 0x46, 0x01]],
  ['a grid of scientific data (netCDF)', [0x43, 0x44, 0x46, 0x02]],
  ['a bzip2 archive', [0x42, 0x5a, 0x68]],
  ['an xz archive', [0xfd, 0x37, 0x7a, 0x58]],
  ['a 7-zip archive', [0x37, 0x7a, 0xbc, 0xaf]],
];

/**
 * What a file that is no text is, in words, by its first bytes.
 *
 * in: bytes, the start of the file
 * out: words; undefined where no known kind begins so
 */
export function binaryKind(bytes: Uint8Array): string | undefined {
  return KINDS.find(([, start]) => start.every((byte, i) => bytes[i] === byte))?.[0];
}
