/** The sheet's type sizes, millimetres: two for notes, one for names, one for the few figures that decide. */
export const letters = { small: 3.05, note: 3.45, name: 4, figure: 5.4 } as const;
