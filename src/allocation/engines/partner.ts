import { type MessagePort, receiveMessageOnPort } from "node:worker_threads";
import type { Proposal } from "./protocol.js";

/**
 * The other thread at work on the same question. Each tells its better points; they are read without waiting, so
 * that a thread deep in a solver need not return to hear of them.
 */
export class Partner {
  readonly #port: MessagePort;
  readonly #most: boolean;
  #best: Proposal | null = null;

  constructor(port: MessagePort, most: boolean) {
    this.#port = port;
    this.#most = most;
  }

  tell(proposal: Proposal): void {
    this.#port.postMessage(proposal);
  }

  /** The best point the other has told so far. */
  best(): Proposal | null {
    for (let heard = receiveMessageOnPort(this.#port); heard; heard = receiveMessageOnPort(this.#port)) {
      const told: Proposal = heard.message;
      if (isBetter(told.objective, this.#best?.objective ?? null, this.#most)) this.#best = told;
    }
    return this.#best;
  }

  close(): void {
    this.#port.close();
  }
}

export function isBetter(objective: number, than: number | null, most: boolean): boolean {
  return than === null || (most ? objective > than : objective < than);
}
