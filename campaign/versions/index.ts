/** Opening documents of any version: older ones are lifted, newer ones are read only. */
export { lift, type Opened, openFiles, openZip } from './versions.ts';
