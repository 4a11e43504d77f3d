/** "g/cm3" as it is printed; what was typed stays in the tables. */
export const raised = (unit: string): string =>
  unit.replace(/(?<=m)[23](?!\d)/g, (power) => (power === '2' ? '²' : '³'));
