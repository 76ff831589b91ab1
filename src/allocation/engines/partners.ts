import { BroadcastChannel, receiveMessageOnPort } from "node:worker_threads";
import type { Proposal } from "./protocol.js";

declare module "node:worker_threads" {
  /** Node takes a channel here, which its types leave out; nothing but proposals is told on ours. */
  function receiveMessageOnPort(channel: BroadcastChannel): { message: Proposal } | undefined;
}

/**
 * The other threads at work on the same question. Each tells all others its better points; they are read without
 * waiting, so that a thread deep in a solver need not return to hear of them.
 */
export class Partners {
  readonly #channel: BroadcastChannel;
  readonly #most: boolean;
  #best: Proposal | null = null;

  constructor(channel: string, most: boolean) {
    this.#channel = new BroadcastChannel(channel);
    this.#most = most;
  }

  tell(proposal: Proposal): void {
    this.#channel.postMessage(proposal);
  }

  /** The best point the others have told so far. */
  best(): Proposal | null {
    for (
      let heard = receiveMessageOnPort(this.#channel);
      heard !== undefined;
      heard = receiveMessageOnPort(this.#channel)
    ) {
      const told = heard.message;
      if (isBetter(told.objective, this.#best?.objective ?? null, this.#most)) this.#best = told;
    }
    return this.#best;
  }

  close(): void {
    this.#channel.close();
  }
}

export function isBetter(objective: number, than: number | null, most: boolean): boolean {
  return than === null || (most ? objective > than : objective < than);
}
