import { parentPort } from "node:worker_threads";
import type { HighsCallbackMap, InterruptCallbackEvent, Model, ModelStatusCode, OptionValue } from "highs";
import type { Stop } from "../engine.js";
import type { Matrix } from "../matrix.js";
import { highs, openModel, PRIMAL_FEASIBLE } from "./highs-model.js";
import { RestartingProof } from "./restarting-proof.js";
import { type Ask, lateVerdict, type News, READY, type Verdict } from "./threads.js";

const SECONDS_BETWEEN_NEWS = 0.25;

const PLAIN = { presolve: "off" };
/** RestartingProof a search HiGHS looks harder for points than the 0.05 it does alone: it finds some far from the search's. */
const EFFORT_BESIDE = 0.3;
/** By which a direction must better the objective, each variable moving by one at most. */
const LEAST_GAIN = 1e-7;

/** Kept back of the time left, for the answer to be read out before the thread is ended. */
const reserve = (left: number) => Math.min(0.5, Math.max(0.02, left * 0.05));

function withoutAim(matrix: Matrix): Matrix {
  return { ...matrix, cost: new Float64Array(matrix.cost.length), constant: 0 };
}

/** The directions that break no row and no bound however far they are followed, no variable moving by more than one. */
function directionsOf(matrix: Matrix): Matrix {
  const open = (sides: Float64Array, furthest: number) =>
    sides.map((side) => (Number.isFinite(side) ? 0 : furthest));
  return {
    ...matrix,
    constant: 0,
    lower: open(matrix.lower, -1),
    upper: open(matrix.upper, 1),
    whole: new Uint8Array(matrix.whole.length),
    rowLower: open(matrix.rowLower, Number.NEGATIVE_INFINITY),
    rowUpper: open(matrix.rowUpper, Number.POSITIVE_INFINITY),
  };
}

interface Run {
  readonly status: ModelStatusCode;
  readonly verdict: Verdict;
}

function isBounded(verdict: Verdict): boolean {
  return verdict.kind !== "solved" || Number.isFinite(verdict.bound);
}

class Proof {
  readonly #ask: Ask;
  readonly #tell: (news: News) => void;
  readonly #restarting: RestartingProof | null;
  #startsFromNothing = false;
  /** Whether HiGHS has a point; a start that breaks a row is none. */
  #isAnyKnown = false;

  constructor(ask: Ask, tell: (news: News) => void) {
    this.#ask = ask;
    this.#tell = tell;
    this.#restarting = ask.channel === null ? null : new RestartingProof(ask.channel, ask);
  }

  close(): void {
    this.#restarting?.close();
  }

  /**
   * "Infeasible" is believed only without presolve, which has called unbounded models so. A model is unbounded when it
   * has a point and a direction in which points get better for ever, whatever HiGHS says. "Optimal" without a point is
   * asked again without presolve; without a bound, without the start too.
   */
  verdict(): Verdict {
    const { infeasible, unbounded, unboundedOrInfeasible, unknown, optimal } = highs.constants.modelStatus;
    const doubtful: readonly ModelStatusCode[] = [infeasible, unbounded, unboundedOrInfeasible, unknown];
    const presolved = this.#runBeside({});
    const isPointless = presolved.status === optimal && presolved.verdict.kind === "failed";
    const isBoundless = presolved.status === optimal && !isBounded(presolved.verdict);
    if (isBoundless) this.#startsFromNothing = true;
    const isOpen = isPointless || isBoundless || doubtful.includes(presolved.status);
    const settled = isOpen ? this.#runBeside(PLAIN) : presolved;
    const given = this.#restarting?.proved();
    if (given) return given;
    if (!isOpen && !this.#ask.matrix.whole.includes(1)) return settled.verdict;
    if (settled.status === infeasible) return { kind: "infeasible" };
    if (!this.#hasEndlessDirection()) return settled.verdict;
    if (settled.verdict.kind === "solved") return { kind: "unbounded" };
    const anyPoint = this.#run(PLAIN, withoutAim(this.#ask.matrix));
    if (anyPoint.status === infeasible) return { kind: "infeasible" };
    if (anyPoint.verdict.kind === "solved") return { kind: "unbounded" };
    return { kind: "failed", reason: "it cannot tell whether there is no plan or no end", stoppedBy: null };
  }

  /** Once more from a better point of another thread where that is worth it. */
  #runBeside(options: Readonly<Record<string, OptionValue>>): Run {
    let run = this.#run(options);
    while (run.status === highs.constants.modelStatus.interrupted && this.#restarting?.startsAgain())
      run = this.#run(options);
    return run;
  }

  #hasEndlessDirection(): boolean {
    const { matrix } = this.#ask;
    if (matrix.lower.every(Number.isFinite) && matrix.upper.every(Number.isFinite)) return false;
    const { verdict } = this.#run({}, directionsOf(matrix));
    return verdict.kind === "solved" && Math.abs(verdict.objective) > LEAST_GAIN;
  }

  #run(options: Readonly<Record<string, OptionValue>>, matrix = this.#ask.matrix): Run {
    const left = ((this.#isAnyKnown ? this.#ask.enough : this.#ask.until) - Date.now()) / 1000;
    const isTheQuestion = matrix === this.#ask.matrix;
    const model = openModel(matrix);
    try {
      model.options.set({
        // The progress callback keeps silent unless there is output; it goes nowhere.
        output_flag: true,
        time_limit: Math.max(0, left - reserve(left)),
        mip_rel_gap: this.#ask.gap,
        mip_min_logging_interval: SECONDS_BETWEEN_NEWS,
        ...(isTheQuestion && this.#restarting !== null && { mip_heuristic_effort: EFFORT_BESIDE }),
        ...options,
      });
      const start = this.#startsFromNothing ? null : (this.#restarting?.start() ?? this.#ask.start);
      if (isTheQuestion && start !== null) model.setSolution({ colValue: start });
      const { modelStatus } = model.run(isTheQuestion ? this.#callbacks() : {});
      return { status: modelStatus, verdict: this.#read(model, modelStatus) };
    } finally {
      model.dispose();
    }
  }

  #read(model: Model, status: ModelStatusCode): Verdict {
    const { modelStatus } = highs.constants;
    const name = Object.entries(modelStatus).find(([, code]) => code === status)?.[0] ?? String(status);
    if (status === modelStatus.infeasible) return { kind: "infeasible" };
    if (status === modelStatus.empty) {
      const objective = this.#ask.matrix.constant;
      return { kind: "solved", point: new Float64Array(), objective, bound: objective, stoppedBy: null };
    }
    const objective = model.getObjectiveValue();
    const isPoint =
      model.info.get("primal_solution_status") === PRIMAL_FEASIBLE && Number.isFinite(objective);
    const isTimeUp = status === modelStatus.timeLimit || status === modelStatus.interrupted;
    const why: Stop = isTimeUp ? { code: "time", words: "timeLimit" } : { code: "solver", words: name };
    if (!isPoint)
      return { kind: "failed", reason: `it stopped at "${why.words}" without any point`, stoppedBy: why };
    const solved = status === modelStatus.optimal;
    return {
      kind: "solved",
      point: model.getSolution().colValue,
      objective,
      bound: this.#bound(model, objective, solved),
      stoppedBy: solved ? null : why,
    };
  }

  #bound(model: Model, objective: number, solved: boolean): number {
    const { matrix } = this.#ask;
    if (matrix.whole.includes(1)) {
      const bound = Number(model.info.get("mip_dual_bound"));
      return this.#restarting?.bestBound(bound) ?? bound;
    }
    if (solved) return objective;
    return matrix.most ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
  }

  #callbacks(): HighsCallbackMap {
    const { id, enough } = this.#ask;
    const isEnoughAt = enough - 1000 * reserve((enough - Date.now()) / 1000);
    const { mipImprovingSolution, mipInterrupt, mipLogging } = highs.constants.callbackType;
    const finite = (value = Number.NaN) => (Number.isFinite(value) ? value : null);
    return {
      [mipImprovingSolution]: ({ data }) => {
        const { mip_solution: point, objective_function_value: objective } = data;
        if (point === undefined || objective === undefined) return;
        this.#isAnyKnown = true;
        this.#tell({ kind: "proposal", id, proposal: { point, objective } });
        this.#restarting?.tell({ point, objective });
      },
      [mipInterrupt]: ({ data, interrupt }: InterruptCallbackEvent) => {
        if (this.#isAnyKnown && Date.now() > isEnoughAt) interrupt();
        if (this.#restarting?.wantsAnEnd(finite(data.mip_dual_bound))) interrupt();
      },
      [mipLogging]: ({ data }) => {
        const best = finite(data.mip_primal_bound);
        this.#isAnyKnown ||= best !== null;
        this.#tell({ kind: "progress", id, best, bound: finite(data.mip_dual_bound) });
      },
    };
  }
}

const port = parentPort;
// What HiGHS throws leaves its memory in an unknown state, and ends the thread.
port?.on("message", (ask: Ask) => {
  const tell = (news: News) => port.postMessage(news);
  const late = lateVerdict(ask);
  if (late !== null) return tell(late);
  const proof = new Proof(ask, tell);
  try {
    tell({ kind: "verdict", id: ask.id, verdict: proof.verdict() });
  } finally {
    proof.close();
  }
});
port?.postMessage(READY);
