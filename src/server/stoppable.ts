import { type Engine, Engines } from "../allocation/index.js";

/** Work that was ended before it was done: nobody wanted its answer any more. */
export class Stopped extends Error {
  constructor(why: string) {
    super(why);
  }
}

/** The same engines for one piece of work, which comes to its end where it next asks them once `over` says so. */
export function stoppable(engines: Engines, over: AbortSignal): Engines {
  const one = (engine: Engine & { warm?(): void }): Engine & { warm?(): void } => ({
    name: engine.name,
    solve: async (question, limits) => {
      over.throwIfAborted();
      const outcome = await engine.solve(question, limits);
      over.throwIfAborted();
      return outcome;
    },
    warm: () => engine.warm?.(),
    close: () => engine.close(),
  });
  return new Engines(one(engines.quick), one(engines.thorough), one(engines.broad));
}
