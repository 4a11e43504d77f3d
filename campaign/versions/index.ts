/** Opening documents of any version: older ones are migrated, newer ones are read only. */
export { migrate, type Opened, openFiles, openZip } from './versions.ts';
