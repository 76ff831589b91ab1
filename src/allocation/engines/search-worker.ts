import { parentPort } from "node:worker_threads";
import { certify } from "../certify.js";
import { type Exchange, type Found, leastOfMatrix, objectiveAt, problemOf, search } from "../search/index.js";
import { toMatrix } from "./matrix.js";
import { Partner } from "./partner.js";
import type { News, Proposal, SearchAsk, Verdict } from "./protocol.js";
import { searchSolver } from "./search-solver.js";

/** Kept back of the time, for a neighbourhood begun at the last moment to be given up. */
const RESERVE_MS = 100;
const PAUSE_MS = 50;

/** Searches until there has been time enough, or for as long as no point is known; all it says has been certified. */
function searched(
  { question, until, enough, start, seed, partner: port }: SearchAsk,
  tell: (found: Proposal) => void,
): void {
  const { model, objective } = question;
  const most = objective.sense === "most";
  const partner = new Partner(port, most);
  const turned = ({ point, objective: value }: Proposal): Found => ({
    point,
    objective: most ? -value : value,
  });
  let isAnyKnown = false;
  const exchange: Exchange = {
    stop: () => {
      isAnyKnown ||= partner.best() !== null;
      return Date.now() > (isAnyKnown ? enough : until) - RESERVE_MS;
    },
    take: () => {
      const best = partner.best();
      return best === null ? null : turned(best);
    },
    offer: (found) => {
      const proposal = turned(found);
      if (!certify(model, objective, [...found.point], proposal.objective).certified) return false;
      partner.tell(proposal);
      tell(proposal);
      isAnyKnown = true;
      return true;
    },
    pause: () => {
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, PAUSE_MS);
    },
  };
  try {
    const problem = problemOf(
      leastOfMatrix(toMatrix(question)),
      model.variables.map(({ tag }) => tag),
    );
    const known = start === null ? null : { point: start, objective: objectiveAt(problem.matrix, start) };
    search(problem, searchSolver, exchange, {
      seed,
      start: known !== null && exchange.offer(known) ? known : null,
    });
  } finally {
    partner.close();
  }
}

const port = parentPort;
port?.on("message", (ask: SearchAsk) => {
  const tell = (news: News) => port.postMessage(news);
  const { id } = ask;
  let verdict: Verdict = { kind: "failed", reason: "its time is up" };
  try {
    searched(ask, (proposal) => tell({ kind: "proposal", id, proposal }));
  } catch (error) {
    verdict = { kind: "failed", reason: String(error) };
  }
  tell({ kind: "verdict", id, verdict });
});
