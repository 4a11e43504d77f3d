/** Places: many holes planned at once, and the grid they are typed in. */
export { GridChoice } from './grid-choice.tsx';
export { PlaceList } from './place-list.tsx';
