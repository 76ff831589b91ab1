/**
 * Least-cost flow by successive shortest paths. With whole capacities, bounds and balances every path carries a
 * whole number of grams, and the flow found is least among all flows, fractional ones included: the matrix of a
 * network is totally unimodular (Hoffman and Kruskal, 1956), so some whole flow is as cheap as any other, and a
 * flow with no cheaper way round is least (Klein, 1967). Costs may be below zero, but no circle of arcs may.
 */
export class FlowNetwork {
  private readonly heads: number[] = [];
  private readonly room: number[] = [];
  private readonly costs: number[] = [];
  private readonly leaving: number[][] = [];
  private readonly balances: number[];
  private fixedCost = 0;
  private possible = true;

  constructor(private readonly nodes: number) {
    this.balances = new Array<number>(nodes + 2).fill(0);
    for (let node = 0; node < nodes + 2; node++) this.leaving.push([]);
  }

  /** Weight that comes into the network at a node; below zero, weight that leaves it there. */
  addBalance(node: number, amount: number): void {
    this.balances[node] = (this.balances[node] ?? 0) + amount;
  }

  balanceOf(node: number): number {
    return this.balances[node] ?? 0;
  }

  /** An arc that carries between `least` and `most`, at a cost for each gram. */
  addArc(from: number, to: number, least: number, most: number, cost: number): void {
    if (least > most || most < 0) {
      this.possible = false;
      return;
    }
    if (least > 0) {
      this.addBalance(from, -least);
      this.addBalance(to, least);
      this.fixedCost += least * cost;
    }
    if (most > least) this.push(from, to, most - least, cost);
  }

  /** The least cost at which every balance can be met, or null when it cannot. */
  leastCost(): number | null {
    if (!this.possible) return null;
    const source = this.nodes;
    const sink = this.nodes + 1;
    let wanted = 0;
    let offered = 0;
    for (let node = 0; node < this.nodes; node++) {
      const balance = this.balanceOf(node);
      if (balance > 0) {
        this.push(source, node, balance, 0);
        offered += balance;
      } else if (balance < 0) {
        this.push(node, sink, -balance, 0);
        wanted -= balance;
      }
    }
    if (offered !== wanted) return null;
    let cost = this.fixedCost;
    let sent = 0;
    while (sent < wanted) {
      const path = this.cheapestPath(source, sink);
      if (path === null) return null;
      for (const arc of path.arcs) {
        this.room[arc] = (this.room[arc] ?? 0) - path.amount;
        this.room[arc ^ 1] = (this.room[arc ^ 1] ?? 0) + path.amount;
      }
      sent += path.amount;
      cost += path.amount * path.cost;
    }
    return cost;
  }

  /** Arcs come in pairs: the odd one takes back what the even one before it carries. */
  private push(from: number, to: number, most: number, cost: number): void {
    this.leaving[from]?.push(this.heads.length);
    this.heads.push(to);
    this.room.push(most);
    this.costs.push(cost);
    this.leaving[to]?.push(this.heads.length);
    this.heads.push(from);
    this.room.push(0);
    this.costs.push(-cost);
  }

  private cheapestPath(
    source: number,
    sink: number,
  ): { arcs: number[]; amount: number; cost: number } | null {
    const far = Number.POSITIVE_INFINITY;
    const distance = new Array<number>(this.nodes + 2).fill(far);
    const by = new Array<number>(this.nodes + 2).fill(-1);
    const waiting = new Array<boolean>(this.nodes + 2).fill(false);
    const queue = [source];
    distance[source] = 0;
    for (let next = queue.shift(); next !== undefined; next = queue.shift()) {
      waiting[next] = false;
      const reached = distance[next] ?? far;
      for (const arc of this.leaving[next] ?? []) {
        if ((this.room[arc] ?? 0) <= 0) continue;
        const to = this.heads[arc] ?? sink;
        const through = reached + (this.costs[arc] ?? 0);
        if (through >= (distance[to] ?? far)) continue;
        distance[to] = through;
        by[to] = arc;
        if (!waiting[to]) {
          waiting[to] = true;
          queue.push(to);
        }
      }
    }
    const cost = distance[sink] ?? far;
    if (cost === far) return null;
    const arcs: number[] = [];
    let amount = far;
    for (let node = sink; node !== source; ) {
      const arc = by[node] ?? 0;
      arcs.push(arc);
      amount = Math.min(amount, this.room[arc] ?? 0);
      node = this.heads[arc ^ 1] ?? source;
    }
    return { arcs, amount, cost };
  }
}
