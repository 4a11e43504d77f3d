/** Places of holes to be planned, many at once. */
export { PlaceList } from './place-list.tsx';
