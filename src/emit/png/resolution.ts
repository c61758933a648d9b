/** Tells a PNG how large it is on paper, so that it is placed and printed at that size. */
import { crc32 } from 'node:zlib';

const MM_PER_INCH = 25.4;
/** Signature and IHDR chunk (W3C PNG, 5.2 and 11.2.2): pHYs may follow them. */
const HEADER = 8 + 25;

/** The same picture with a pHYs chunk (W3C PNG, 11.3.4.3): pixels a metre, both ways. */
export function withResolution(png: Uint8Array, dpi: number): Uint8Array {
  const chunk = Buffer.alloc(21);
  chunk.writeUInt32BE(9, 0);
  chunk.write('pHYs', 4, 'latin1');
  const perMetre = Math.round((dpi / MM_PER_INCH) * 1000);
  chunk.writeUInt32BE(perMetre, 8);
  chunk.writeUInt32BE(perMetre, 12);
  chunk.writeUInt8(1, 16);
  chunk.writeUInt32BE(crc32(chunk.subarray(4, 17)), 17);
  return Buffer.concat([png.subarray(0, HEADER), chunk, png.subarray(HEADER)]);
}
