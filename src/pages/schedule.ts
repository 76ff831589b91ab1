/** A piece of hands-on work before a service. */
export interface Task {
  /** Hands-on minutes. */
  readonly minutes: number;
  /** Minutes it then cooks or stands by itself before it can be served or worked further. */
  readonly unattended: number;
  /** Indexes of the tasks that must be done first; all of them smaller. */
  readonly after: readonly number[];
}

/** Minutes before the service, and which of the cooks, counted from 0. */
export interface Slot {
  readonly start: number;
  readonly cook: number;
}

/**
 * The latest each task may start so that all is ready at the service. Tasks are taken from the last one backwards,
 * each given to the cook who can start it latest; no cook does two at once. With one cook, tasks that need nothing
 * of each other are best in the order of the time they cook by themselves, longest first (Jackson's rule, 1955);
 * with several this is list scheduling (Graham, 1969), at most twice the least time there is. Both from memory.
 */
export function latestStarts(tasks: readonly Task[], cooks: number): Slot[] {
  const busyFrom = Array.from({ length: cooks }, () => 0);
  const slots: Slot[] = [];
  for (let index = tasks.length - 1; index >= 0; index--) {
    const task = tasks[index] as Task;
    const needed = slots.filter((_, later) => tasks[later]?.after.includes(index)).map(({ start }) => start);
    const doneBy = Math.max(0, ...needed) + task.unattended;
    const cook = busyFrom.indexOf(Math.min(...busyFrom));
    const start = Math.max(doneBy, busyFrom[cook] ?? 0) + task.minutes;
    busyFrom[cook] = start;
    slots[index] = { start, cook };
  }
  return slots;
}
