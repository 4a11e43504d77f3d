/** Things that are joined two by two, and so in groups. */
export interface Unions {
  /** What its group is known by: the same for all that are joined; itself for one that is joined to none. */
  root(key: string): string;
  /** The group of the second becomes one with that of the first, whose root stays. */
  join(a: string, b: string): void;
}

export function unions(): Unions {
  const above = new Map<string, string>();
  const root = (key: string): string => {
    let at = key;
    for (let up = above.get(at); up !== undefined; up = above.get(at)) at = up;
    return at;
  };
  return {
    root,
    join: (a, b) => {
      const [first, second] = [root(a), root(b)];
      if (first !== second) above.set(second, first);
    },
  };
}
