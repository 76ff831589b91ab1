import type { Path } from "./source.js";

type Step = string | number;

/** Paths, so kept that a question about one takes no longer for there being many. */
export class PathSet {
  /** How many paths there are. */
  size = 0;
  private readonly root = new Branch();

  add(path: Path): void {
    let branch = this.root;
    for (const step of path) branch = branch.made(step);
    if (!branch.isEnd) this.size += 1;
    branch.isEnd = true;
  }

  has(path: Path): boolean {
    return this.at(path)?.isEnd ?? false;
  }

  /** Whether a path of these is this one or leads further into it. */
  hasWithin(path: Path): boolean {
    const branch = this.at(path);
    return branch !== null && (branch.isEnd || branch.branches.size > 0);
  }

  /** Whether a path of these is this one or leads to what is around it. */
  hasAround(path: Path): boolean {
    let branch: Branch | undefined = this.root;
    for (const step of path) {
      if (branch.isEnd) return true;
      branch = branch.branches.get(step);
      if (branch === undefined) return false;
    }
    return branch.isEnd;
  }

  private at(path: Path): Branch | null {
    let branch: Branch | undefined = this.root;
    for (const step of path) {
      branch = branch.branches.get(step);
      if (branch === undefined) return null;
    }
    return branch;
  }
}

class Branch {
  isEnd = false;
  readonly branches = new Map<Step, Branch>();

  made(step: Step): Branch {
    const known = this.branches.get(step);
    if (known !== undefined) return known;
    const made = new Branch();
    this.branches.set(step, made);
    return made;
  }
}
