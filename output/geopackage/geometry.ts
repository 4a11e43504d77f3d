/** A point as GeoPackage stores it: a header, then well-known binary (OGC 12-128r18, 2.1.3.1.1). */

/** Bytes of the header without an envelope, which a point does not need. */
const HEADER = 8;
/** Byte order, type, x, y (OGC 06-103r4, 8.2). */
const WKB_POINT = 1 + 4 + 8 + 8;
/** Of version and geometry type: version 1 is 0, a point is 1. */
const VERSION = 0;
const POINT = 1;
/** Flags: standard, not empty, no envelope, the header little-endian. The same number says little-endian in WKB. */
const LITTLE_ENDIAN = 1;

/** `longitude` and `latitude` in degrees, in this order, in the reference system `srs_id`. */
export function pointBlob([longitude, latitude]: readonly [number, number], srs_id: number): Uint8Array {
  const bytes = new Uint8Array(HEADER + WKB_POINT);
  const view = new DataView(bytes.buffer);
  // "GP".
  view.setUint16(0, 0x4750);
  view.setUint8(2, VERSION);
  view.setUint8(3, LITTLE_ENDIAN);
  view.setInt32(4, srs_id, true);
  view.setUint8(HEADER, LITTLE_ENDIAN);
  view.setUint32(HEADER + 1, POINT, true);
  view.setFloat64(HEADER + 5, longitude, true);
  view.setFloat64(HEADER + 13, latitude, true);
  return bytes;
}
