import { BroadcastChannel, receiveMessageOnPort } from "node:worker_threads";
import { isBetter } from "../outcome.js";
import type { Proposal } from "./protocol.js";

declare module "node:worker_threads" {
  /** Node takes a channel here, which its types leave out; nothing but proposals is told on ours. */
  function receiveMessageOnPort(channel: BroadcastChannel): { message: Proposal } | undefined;
}

type Judge = (told: Proposal) => Proposal | null;

/**
 * The other threads at work on the same question. Each tells all others its better points; they are read without
 * waiting, so that a thread deep in a solver need not return to hear of them.
 */
export class Partners {
  readonly #channel: BroadcastChannel;
  readonly #most: boolean;
  readonly #judge: Judge;
  #best: Proposal | null = null;

  /** What is heard is judged first: null is left aside. */
  constructor(channel: string, most: boolean, judge: Judge = (told) => told) {
    this.#judge = judge;
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
      if (isBetter(told.objective, this.#best?.objective ?? null, this.#most))
        this.#best = this.#judge(told) ?? this.#best;
    }
    return this.#best;
  }

  close(): void {
    this.#channel.close();
  }
}
