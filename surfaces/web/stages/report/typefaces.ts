/** The typefaces as data, for files that must look the same on a machine without them. */
import atkinson from '@fontsource-variable/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-wght-normal.woff2?url';
import stixGreek from '@fontsource-variable/stix-two-text/files/stix-two-text-greek-wght-normal.woff2?url';
import stixItalic from '@fontsource-variable/stix-two-text/files/stix-two-text-latin-wght-italic.woff2?url';
import stix from '@fontsource-variable/stix-two-text/files/stix-two-text-latin-wght-normal.woff2?url';

const ATKINSON = 'Atkinson Hyperlegible Next';
const FACES = [
  { family: ATKINSON, style: 'normal', weight: '200 800', range: '', url: atkinson },
  { family: 'STIX Two Text', style: 'normal', weight: '400 700', range: '', url: stix },
  { family: 'STIX Two Text', style: 'italic', weight: '400 700', range: '', url: stixItalic },
  { family: 'STIX Two Text', style: 'normal', weight: '400 700', range: 'U+0370-03FF', url: stixGreek },
] as const;

type Face = { rule: string; isNeeded(svg: string): boolean };

let faces: Promise<Face[]> | null = null;

/** The faces as `@font-face` rules with the files inside; read once. */
function typefaces(): Promise<Face[]> {
  faces ??= Promise.all(
    FACES.map(async ({ family, style, weight, range, url }) => {
      const data = base64(await typefaceFile(url));
      const only = range === '' ? '' : `;unicode-range:${range}`;
      return {
        rule: `@font-face{font-family:"${family}";font-style:${style};font-weight:${weight}${only};src:url(data:font/woff2;base64,${data}) format("woff2")}`,
        isNeeded: (svg: string): boolean =>
          range !== ''
            ? /[\u0370-\u03ff]/.test(svg)
            : family === ATKINSON
              ? !svg.includes('Plain Zero')
              : style === 'normal' || svg.includes('italic'),
      };
    }),
  );
  return faces;
}

/** All rules, for a page. */
export const typefaceRules = async (): Promise<string> =>
  (await typefaces()).map((face) => face.rule).join('\n');

/** The SVG with the faces it uses in its own style. */
export async function withTypefaces(svg: string): Promise<string> {
  const used = (await typefaces()).filter((face) => face.isNeeded(svg));
  return svg.replace('<desc>', () => `<style>${used.map((face) => face.rule).join('')}</style><desc>`);
}

/** The bytes of a typeface of the app. */
export async function typefaceFile(url: string): Promise<Uint8Array> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`typeface ${url}: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}

export function base64(bytes: Uint8Array): string {
  let binary = '';
  for (let i = 0; i < bytes.length; i += 8192) binary += String.fromCharCode(...bytes.subarray(i, i + 8192));
  return btoa(binary);
}
