/** The font files that PDFs embed and pictures are set from; asked for when figures are exported, and not before. */
import light from '@expo-google-fonts/atkinson-hyperlegible-next/300Light/AtkinsonHyperlegibleNext_300Light.ttf?url';
import regular from '@expo-google-fonts/atkinson-hyperlegible-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf?url';
import semibold from '@expo-google-fonts/atkinson-hyperlegible-next/600SemiBold/AtkinsonHyperlegibleNext_600SemiBold.ttf?url';
import title from '@expo-google-fonts/stix-two-text/400Regular/STIXTwoText_400Regular.ttf?url';
import water from '@expo-google-fonts/stix-two-text/400Regular_Italic/STIXTwoText_400Regular_Italic.ttf?url';
import titleBold from '@expo-google-fonts/stix-two-text/600SemiBold/STIXTwoText_600SemiBold.ttf?url';
import { type FaceFile, giveTypefaces, typeface } from '@stillstand/output/typeset';
import { base64, typefaceFile } from '../typefaces.ts';

const FILES: Record<FaceFile, string> = {
  text300: light,
  text400: regular,
  text600: semibold,
  title400: title,
  title600: titleBold,
  water400: water,
};

let letters: Promise<void> | null = null;

/** Read once, then given to whatever sets text. */
export function readLetters(): Promise<void> {
  letters ??= (async () => {
    const files = new Map<string, Uint8Array>();
    await Promise.all(
      Object.entries(FILES).map(async ([name, url]) => files.set(name, await typefaceFile(url))),
    );
    giveTypefaces((name) => files.get(name)!);
  })();
  return letters;
}

/** Rules of the faces with a plain zero that an SVG asks for, with the files inside. */
export function plainZeroRules(svg: string): string {
  return ([300, 400, 600] as const)
    .filter((weight) => weight === 400 || svg.includes(`font-weight="${weight}"`))
    .map((weight) => {
      const data = base64(typeface(`plain${weight}`).file);
      return `@font-face{font-family:"Atkinson Hyperlegible Next Plain Zero";font-weight:${weight};src:url(data:font/ttf;base64,${data}) format("truetype")}`;
    })
    .join('');
}
