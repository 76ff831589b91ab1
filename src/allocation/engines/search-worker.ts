import { parentPort } from "node:worker_threads";
import { certify } from "../certify.js";
import { snapped, toMatrix } from "../matrix.js";
import { type Exchange, type Found, leastOfMatrix, objectiveAt, problemOf, search } from "../search/index.js";
import { searchSolver } from "./highs-model.js";
import { IncumbentChannel } from "./incumbent.js";
import { lateVerdict, type News, type Proposal, READY, type SearchAsk, TIME_IS_UP } from "./threads.js";

const SEED = 1;
/** Kept back of the time, for a neighbourhood begun at the last moment to be given up. */
const RESERVE_MS = 100;
const PAUSE_MS = 50;

/** Searches until there has been time enough, or for as long as no point is known; all it says has been certified. */
function searched(
  { id, question, until, enough, start, channel }: SearchAsk,
  tell: (news: News) => void,
): void {
  const { model, objective } = question;
  const matrix = toMatrix(question);
  const most = objective.sense === "most";
  const stands = ({ point, objective: value }: Proposal): boolean =>
    certify(model, objective, [...point], value).certified;
  const incumbents = new IncumbentChannel(channel, most, (told) => {
    // What HiGHS tells may be a little off in whole numbers, which no search would mend.
    const proposal = { ...told, point: Float64Array.from(snapped(told.point, matrix.whole)) };
    return stands(proposal) ? proposal : null;
  });
  const turned = ({ point, objective: value }: Proposal): Found => ({
    point,
    objective: most ? -value : value,
  });
  let isAnyKnown = false;
  let isWaiting = false;
  const exchange: Exchange = {
    stop: () => {
      isAnyKnown ||= incumbents.best() !== null;
      return Date.now() > (isAnyKnown ? enough : until) - RESERVE_MS;
    },
    take: () => {
      const best = incumbents.best();
      return best === null ? null : turned(best);
    },
    offer: (found) => {
      const proposal = turned(found);
      if (!stands(proposal)) return false;
      incumbents.tell(proposal);
      tell({ kind: "proposal", id, proposal });
      isAnyKnown = true;
      return true;
    },
    bound: (objective) => {
      tell({ kind: "progress", id, best: null, bound: most ? -objective : objective });
    },
    pause: () => {
      if (!isWaiting) tell({ kind: "waits", id });
      isWaiting = true;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, PAUSE_MS);
    },
  };
  try {
    const problem = problemOf(
      leastOfMatrix(matrix),
      model.variables.map(({ tag }) => tag),
    );
    const known = start === null ? null : { point: start, objective: objectiveAt(problem.matrix, start) };
    search(problem, searchSolver, exchange, {
      seed: SEED,
      start: known !== null && exchange.offer(known) ? known : null,
    });
  } finally {
    incumbents.close();
  }
}

const port = parentPort;
// What HiGHS throws leaves its memory in an unknown state, and ends the thread.
port?.on("message", (ask: SearchAsk) => {
  const tell = (news: News) => port.postMessage(news);
  const late = lateVerdict(ask);
  if (late !== null) return tell(late);
  searched(ask, tell);
  tell({ kind: "verdict", id: ask.id, verdict: TIME_IS_UP });
});
port?.postMessage(READY);
