/** A geometry as GeoPackage stores it (OGC 12-128r18, 2.1.3.1.1): lines and areas of well-known binary (OGC 06-103r4, 8.2). */

export interface ReadGeometry {
  type: 'LineString' | 'Polygon' | 'MultiLineString' | 'MultiPolygon';
  coordinates: unknown[];
}

export type Turned = (x: number, y: number) => [longitude_deg: number, latitude_deg: number] | null;

/** Bytes of the envelope by its kind in the flags. */
const ENVELOPES = [0, 32, 48, 48, 64];
const TYPES = { 2: 'LineString', 3: 'Polygon', 5: 'MultiLineString', 6: 'MultiPolygon' } as const;

/** Null for a point, for what is empty, and for what is none of it. */
export function readGeometry(blob: Uint8Array, turned: Turned): ReadGeometry | null {
  const view = new DataView(blob.buffer, blob.byteOffset, blob.byteLength);
  // "GP"
  if (blob.length < 13 || view.getUint16(0) !== 0x4750) return null;
  const envelope = ENVELOPES[(view.getUint8(3) >> 1) & 7];
  if (envelope === undefined) return null;
  try {
    return geometryAt({ view, at: 8 + envelope, turned });
  } catch (error) {
    // Cut short.
    if (error instanceof RangeError) return null;
    throw error;
  }
}

interface Reader {
  view: DataView;
  at: number;
  turned: Turned;
}

function geometryAt(reader: Reader): ReadGeometry | null {
  const isLittle = reader.view.getUint8(reader.at) === 1;
  const code = reader.view.getUint32(reader.at + 1, isLittle);
  reader.at += 5;
  const kind = code % 1000;
  // 1000: with z, 2000: with m, 3000: with both.
  const numbers = [2, 3, 3, 4][Math.floor(code / 1000)];
  const type = TYPES[kind as keyof typeof TYPES];
  if (type === undefined || numbers === undefined) return null;
  const places = (): [number, number][] =>
    Array.from({ length: count(reader, isLittle) }, () => placeAt(reader, isLittle, numbers)).filter(
      (place) => place !== null,
    );
  if (kind === 2) return { type, coordinates: places() };
  if (kind === 3)
    return { type, coordinates: Array.from({ length: count(reader, isLittle) }, () => places()) };
  const parts = Array.from({ length: count(reader, isLittle) }, () => geometryAt(reader));
  return { type, coordinates: parts.flatMap((part) => (part === null ? [] : [part.coordinates])) };
}

function count(reader: Reader, isLittle: boolean): number {
  const number = reader.view.getUint32(reader.at, isLittle);
  reader.at += 4;
  // More than there are bytes for.
  if (number > reader.view.byteLength) throw new RangeError('count');
  return number;
}

function placeAt(reader: Reader, isLittle: boolean, numbers: number): [number, number] | null {
  const x = reader.view.getFloat64(reader.at, isLittle);
  const y = reader.view.getFloat64(reader.at + 8, isLittle);
  reader.at += 8 * numbers;
  return reader.turned(x, y);
}
