/** How the program ends, for whoever called it. */
export const EXIT = {
  plan: 0,
  noPlan: 1,
  wrongInput: 2,
  noAnswer: 3,
  interrupted: 130,
} as const;
export type ExitCode = (typeof EXIT)[keyof typeof EXIT];
