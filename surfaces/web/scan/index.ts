/** Codes that a camera reads (ISO/IEC 18004): off the camera, off a photograph, or typed in words. */
export { CodeScanner } from './code-scanner.tsx';
