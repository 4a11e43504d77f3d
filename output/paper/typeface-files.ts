/** The typefaces from the disk. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { type FaceFile, giveTypefaces } from '@stillstand/output/typeset';

const TEXT = '@expo-google-fonts/atkinson-hyperlegible-next';
const TITLE = '@expo-google-fonts/stix-two-text';
const FILES: Record<FaceFile, string> = {
  text300: `${TEXT}/300Light/AtkinsonHyperlegibleNext_300Light.ttf`,
  text400: `${TEXT}/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf`,
  text600: `${TEXT}/600SemiBold/AtkinsonHyperlegibleNext_600SemiBold.ttf`,
  title400: `${TITLE}/400Regular/STIXTwoText_400Regular.ttf`,
  title600: `${TITLE}/600SemiBold/STIXTwoText_600SemiBold.ttf`,
  water400: `${TITLE}/400Regular_Italic/STIXTwoText_400Regular_Italic.ttf`,
};

giveTypefaces((name) => readFileSync(createRequire(import.meta.url).resolve(FILES[name])));
