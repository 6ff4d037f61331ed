package padward.route.cost;

/**
 * A cost model of a caller's own, any function that keeps to the contract of {@link CostModel}. It
 * has no form in small numbers, so it is answered by the general search: 64-bit costs, a heap, edge
 * by edge. On a million wires that is several times slower than the fast searches; use it where a
 * rule does not fit the other models, and where the search is short.
 */
@FunctionalInterface
public non-sealed interface CustomCost extends CostModel {}
