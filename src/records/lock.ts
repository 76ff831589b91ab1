import { randomUUID } from "node:crypto";
import { readlinkSync } from "node:fs";
import { open, readFile, rm, stat, unlink, utimes } from "node:fs/promises";
import { hostname } from "node:os";
import { setTimeout as pause } from "node:timers/promises";

/** A holder renews its lock so often; one not renewed for so long has ended, whatever stands in it. */
const RENEW_MS = 1_000;
const STALE_MS = 10_000;
/** Longer than a lock may be stale, so that a waiting program outlives one that is. */
const WAIT_MS = 15_000;
const PAUSE_MS = { least: 15, more: 45 };

/** Who holds a lock, as it says in the lock's file. */
interface Holder {
  readonly pid: number;
  /** The machine, and where it can be told, which of its sets of process numbers. */
  readonly host: string;
  /** Of this lock alone. */
  readonly token: string;
}

/** A lock held. */
export interface Lock {
  /** Whether it is still this program's: one that was suspended for long may have lost it. */
  readonly isHeld: () => Promise<boolean>;
  readonly release: () => Promise<void>;
}

/** Another program holds the lock and does not let go. */
export class LockTaken extends Error {
  readonly lock: string;
  /** Null where the lock does not say. */
  readonly holder: Holder | null;

  constructor(lock: string, holder: Holder | null) {
    super(`${lock} is held`);
    this.lock = lock;
    this.holder = holder;
  }
}

/**
 * Locks a file against all others that ask for the same, with a file beside it. Waits some seconds for whoever holds
 * it; one whose program has ended is ended too. Throws `LockTaken`, or the system's error where none can be made.
 */
export async function lockFile(file: string, waitMs = WAIT_MS): Promise<Lock> {
  const lock = `${file}.lock`;
  const holder: Holder = { pid: process.pid, host: HOST, token: randomUUID() };
  const until = performance.now() + waitMs;
  let seen: Seen | null = null;
  while (!(await make(lock, holder))) {
    const now = await look(lock);
    if (now === null) continue;
    seen = seen !== null && isSame(seen, now) ? seen : now;
    if (isStale(seen)) await end(lock, seen);
    else if (performance.now() > until) throw new LockTaken(lock, now.holder);
    else await pause(PAUSE_MS.least + Math.random() * PAUSE_MS.more);
  }
  const renewing = setInterval(() => {
    const now = new Date();
    utimes(lock, now, now).catch(() => undefined);
  }, RENEW_MS).unref();
  const isHeld = async () => (await look(lock))?.holder?.token === holder.token;
  return {
    isHeld,
    release: async () => {
      clearInterval(renewing);
      if (await isHeld()) await unlink(lock).catch(() => undefined);
    },
  };
}

/** Containers of one name may share a folder: on Linux the space of process numbers tells them apart. */
const HOST = [hostname(), processSpace()].join(" ").trim();

function processSpace(): string {
  try {
    return readlinkSync("/proc/self/ns/pid");
  } catch {
    return "";
  }
}

async function make(lock: string, holder: Holder): Promise<boolean> {
  try {
    const handle = await open(lock, "wx");
    try {
      await handle.writeFile(JSON.stringify(holder)).finally(() => handle.close());
    } catch (error) {
      await unlink(lock).catch(() => undefined);
      throw error;
    }
    return true;
  } catch (error) {
    if (codeOf(error) === "EEXIST") return false;
    throw error;
  }
}

/** A lock as it was found, and since when it has been so on this program's own clock. */
interface Seen {
  readonly holder: Holder | null;
  /** Differs between any two that are not the same lock, renewed the same number of times. */
  readonly mark: string;
  readonly ageMs: number;
  readonly at: number;
}

async function look(lock: string): Promise<Seen | null> {
  try {
    const { mtimeMs, ino } = await stat(lock);
    const holder = holderIn(await readFile(lock, "utf8").catch(() => ""));
    const mark = `${ino} ${mtimeMs} ${holder?.token ?? ""}`;
    return { holder, mark, ageMs: Date.now() - mtimeMs, at: performance.now() };
  } catch (error) {
    if (codeOf(error) === "ENOENT") return null;
    throw error;
  }
}

function isSame(a: Seen, b: Seen): boolean {
  return a.mark === b.mark;
}

/**
 * Whether nobody holds it any more: its program has ended, or it was not renewed for long. Its date counts where this
 * machine's clock gave it, also one that lies ahead; another's may be set otherwise, and is only watched.
 */
function isStale({ holder, ageMs, at }: Seen): boolean {
  if (performance.now() - at >= STALE_MS) return true;
  if (holder !== null && holder.host !== HOST) return false;
  return (holder !== null && !isRunning(holder.pid)) || Math.abs(ageMs) >= STALE_MS;
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return codeOf(error) !== "ESRCH";
  }
}

/** Takes a stale lock away, one program at a time, so that none takes away the one that comes after it. */
async function end(lock: string, seen: Seen): Promise<void> {
  const ending = `${lock}.ending`;
  try {
    await (await open(ending, "wx")).close();
  } catch (error) {
    if (codeOf(error) !== "EEXIST") throw error;
    const other = await look(ending);
    if (other !== null && Math.abs(other.ageMs) >= STALE_MS) await remove(ending);
    else await pause(PAUSE_MS.least);
    return;
  }
  try {
    const now = await look(lock);
    if (now !== null && isSame(seen, now)) await remove(lock);
  } finally {
    await remove(ending);
  }
}

/** What stands in a lock's place may be a folder, as earlier versions made. */
function remove(path: string): Promise<void> {
  return rm(path, { recursive: true, force: true });
}

function holderIn(text: string): Holder | null {
  try {
    const { pid, host, token } = JSON.parse(text) as Partial<Record<keyof Holder, unknown>>;
    const isHolder = Number.isInteger(pid) && Number(pid) > 0;
    return isHolder && typeof host === "string" && typeof token === "string"
      ? { pid: Number(pid), host, token }
      : null;
  } catch {
    return null;
  }
}

/** The code of a system's error; empty where it is none. */
export function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : "";
}
