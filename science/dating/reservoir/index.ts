/** ΔR: of one shell, and of several of one water. */
export { type Measured, offsetOfKnownAge, offsetOfPair, type ReservoirOffset } from './known-age.ts';
export { FEW_SHELLS, type PooledOffset, pooledOffset } from './pooled-offset.ts';
