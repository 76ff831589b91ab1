import { inflateSync } from "node:zlib";

/** Advance width of a character in a WOFF font, in thousandths of an em; null where the font has no glyph. */
export type Advance = (character: number) => number | null;

/**
 * Reads advance widths from a WOFF file: W3C "WOFF File Format 1.0" for the tables' directory, OpenType `cmap`
 * (format 4), `hhea`, `hmtx` and `head` for the rest.
 */
export function readAdvances(file: Buffer): Advance {
  const table = (tag: string): Buffer => {
    const count = file.readUInt16BE(12);
    for (let index = 0; index < count; index++) {
      const entry = 44 + index * 20;
      if (file.toString("latin1", entry, entry + 4) !== tag) continue;
      const offset = file.readUInt32BE(entry + 4);
      const packed = file.readUInt32BE(entry + 8);
      const data = file.subarray(offset, offset + packed);
      return packed < file.readUInt32BE(entry + 12) ? inflateSync(data) : data;
    }
    throw new Error(`the font has no ${tag}`);
  };
  const unitsPerEm = table("head").readUInt16BE(18);
  const metrics = table("hhea").readUInt16BE(34);
  const widths = table("hmtx");
  const glyphOf = characterMap(table("cmap"));
  return (character) => {
    const glyph = glyphOf(character);
    if (glyph === 0) return null;
    return (widths.readUInt16BE(Math.min(glyph, metrics - 1) * 4) * 1000) / unitsPerEm;
  };
}

function characterMap(cmap: Buffer): (character: number) => number {
  const subtables = Array.from({ length: cmap.readUInt16BE(2) }, (_, index) =>
    cmap.readUInt32BE(8 + index * 8),
  );
  const start = subtables.find((offset) => cmap.readUInt16BE(offset) === 4);
  if (start === undefined) throw new Error("the font has no cmap of format 4");
  const segments = cmap.readUInt16BE(start + 6) / 2;
  return (character) => {
    for (let segment = 0; segment < segments; segment++) {
      const at = start + 14 + segment * 2;
      if (character > cmap.readUInt16BE(at)) continue;
      const first = cmap.readUInt16BE(at + segments * 2 + 2);
      if (character < first) return 0;
      const delta = cmap.readInt16BE(at + segments * 4 + 2);
      const rangeAt = at + segments * 6 + 2;
      const range = cmap.readUInt16BE(rangeAt);
      if (range === 0) return (character + delta) & 0xffff;
      const glyph = cmap.readUInt16BE(rangeAt + range + (character - first) * 2);
      return glyph === 0 ? 0 : (glyph + delta) & 0xffff;
    }
    return 0;
  };
}
