/** An HTML document of one file that loads nothing and runs nothing. */
export { pageHtml } from './page.tsx';
