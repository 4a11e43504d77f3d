/** The words of the drawing in the language of the crew that reads it; on paper they are English. */
import { createContext, useContext } from 'react';

export type Say = (english: string) => string;

export const SayContext = createContext<Say>((english) => english);

export const useSay = (): Say => useContext(SayContext);
