package padward.watch.logic;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import padward.watch.circuit.TruthTable;

/**
 * Covers a logic graph with lookup tables of k inputs, as few as possible. For each node the sets
 * of at most k nodes that cut it off from the inputs are enumerated (Cong, Wu and Ding, "Cut
 * ranking and pruning", FPGA 1999); the cover is chosen by area flow and then improved by exact
 * local area (Mishchenko, Chatterjee and Brayton, "Improvements to technology mapping for LUT-based
 * FPGAs", 2007). Functions that one or two tables can hold get the fewest: see {@link TwoTables}.
 */
public final class TableMapper {
    /** Cuts that are remembered of each node. */
    private static final int CUTS = 40;

    private static final int ROUNDS = 4;

    private final LogicGraph graph;
    private final int tableInputs;
    private final List<List<int[]>> cuts = new ArrayList<>();
    private final double[] flow;
    private final int[][] best;
    private final int[] uses;

    private TableMapper(LogicGraph graph, int tableInputs) {
        this.graph = graph;
        this.tableInputs = tableInputs;
        this.flow = new double[graph.nodes()];
        this.best = new int[graph.nodes()][];
        this.uses = new int[graph.nodes()];
    }

    /**
     * What a table reads: a literal of an input, or the output of an earlier table.
     *
     * @param isTable whether it is a table
     * @param number the table's number, or the input's literal, which is no complement
     */
    public record Source(boolean isTable, int number) {}

    /**
     * A lookup table.
     *
     * @param inputs what it reads
     * @param function its contents
     */
    public record Table(List<Source> inputs, TruthTable function) {
        /** Copies the list. */
        public Table {
            inputs = List.copyOf(inputs);
        }
    }

    /**
     * Tables, each after those that it reads, and what drives each literal that was asked for.
     *
     * @param tables the tables
     * @param roots of each literal
     */
    public record Cover(List<Table> tables, List<Source> roots) {
        /** Copies the lists. */
        public Cover {
            tables = List.copyOf(tables);
            roots = List.copyOf(roots);
        }
    }

    /**
     * Covers what some literals need.
     *
     * @param tableInputs inputs of a table, 2 to 8
     * @param roots the literals
     */
    public static Cover cover(LogicGraph graph, int tableInputs, List<Integer> roots) {
        if (tableInputs < 2 || tableInputs > 8) {
            throw new IllegalArgumentException("tables of " + tableInputs + " inputs");
        }
        TableMapper mapper = new TableMapper(graph, tableInputs);
        return mapper.run(roots);
    }

    private Cover run(List<Integer> roots) {
        int[] fanOut = new int[graph.nodes()];
        for (int node = 0; node < graph.nodes(); node++) {
            if (!graph.isInput(node)) {
                fanOut[LogicGraph.node(graph.first(node))]++;
                fanOut[LogicGraph.node(graph.second(node))]++;
            }
        }
        for (int node = 0; node < graph.nodes(); node++) {
            enumerate(node, Math.max(1, fanOut[node]));
        }
        roots.forEach(root -> use(LogicGraph.node(root)));
        for (int round = 0; round < ROUNDS; round++) {
            improve();
        }
        return new Emission(roots).run();
    }

    private void enumerate(int node, int fanOut) {
        if (graph.isInput(node)) {
            cuts.add(List.of(node == 0 ? new int[0] : new int[] {node}));
            return;
        }
        CutSet found = new CutSet(tableInputs);
        for (int[] a : cuts.get(LogicGraph.node(graph.first(node)))) {
            for (int[] b : cuts.get(LogicGraph.node(graph.second(node)))) {
                found.addUnion(a, b);
            }
        }
        List<int[]> sorted = new ArrayList<>(found.cuts());
        sorted.sort(Comparator.comparingDouble(this::flowOf).thenComparingInt(c -> c.length));
        List<int[]> kept = new ArrayList<>(sorted.subList(0, Math.min(CUTS, sorted.size())));
        best[node] = kept.get(0);
        flow[node] = flowOf(kept.get(0)) / fanOut;
        kept.add(new int[] {node});
        cuts.add(kept);
    }

    private double flowOf(int[] cut) {
        double sum = 1;
        for (int leaf : cut) {
            sum += flow[leaf];
        }
        return sum;
    }

    /** Counts one more use of a node; how many tables that adds. */
    private int use(int node) {
        if (graph.isInput(node) || uses[node]++ > 0) {
            return 0;
        }
        return useLeaves(best[node]);
    }

    private int useLeaves(int[] cut) {
        int tables = 1;
        for (int leaf : cut) {
            tables += use(leaf);
        }
        return tables;
    }

    /** Counts one use less; how many tables that removes. */
    private int drop(int node) {
        if (graph.isInput(node) || --uses[node] > 0) {
            return 0;
        }
        return dropLeaves(best[node]);
    }

    private int dropLeaves(int[] cut) {
        int tables = 1;
        for (int leaf : cut) {
            tables += drop(leaf);
        }
        return tables;
    }

    /** Gives each node of the cover the cut that needs the fewest tables besides the others'. */
    private void improve() {
        for (int node = 0; node < graph.nodes(); node++) {
            if (graph.isInput(node) || uses[node] == 0) {
                continue;
            }
            int least = dropLeaves(best[node]);
            int[] chosen = best[node];
            for (int[] cut : cuts.get(node)) {
                if (cut.length == 1 && cut[0] == node) {
                    continue;
                }
                int tables = useLeaves(cut);
                dropLeaves(cut);
                if (tables < least || tables == least && cut.length < chosen.length) {
                    least = tables;
                    chosen = cut;
                }
            }
            best[node] = chosen;
            useLeaves(chosen);
        }
    }

    /** Writes the cover down as tables. */
    private final class Emission {
        private final List<Integer> roots;
        private final TreeSet<Integer> complemented = new TreeSet<>();
        private final Map<Integer, Source> sourceOfNode = new HashMap<>();
        private final Map<Table, Source> sourceOfTable = new HashMap<>();
        private final List<Table> tables = new ArrayList<>();

        Emission(List<Integer> roots) {
            this.roots = roots;
            // a table that only roots read, as complements, holds the complement
            for (int root : roots) {
                if (LogicGraph.isComplement(root) && !roots.contains(LogicGraph.not(root))) {
                    complemented.add(LogicGraph.node(root));
                }
            }
        }

        Cover run() {
            List<Source> sources = new ArrayList<>();
            for (int root : roots) {
                sources.add(sourceOf(root));
            }
            return new Cover(tables, sources);
        }

        private Source sourceOf(int literal) {
            int node = LogicGraph.node(literal);
            if (node == 0) {
                return add(
                        new Table(
                                List.of(), TruthTable.constant(LogicGraph.isComplement(literal))));
            }
            Source source = graph.isInput(node) ? source(node) : withFewest(literal);
            boolean inverted =
                    LogicGraph.isComplement(literal)
                            != (!graph.isInput(node) && complemented.contains(node));
            return inverted
                    ? add(new Table(List.of(source), TruthTable.of(1, row -> row == 0)))
                    : source;
        }

        /** The node of a root, by at most two tables of its own where that needs fewer. */
        private Source withFewest(int literal) {
            int node = LogicGraph.node(literal);
            if (sourceOfNode.containsKey(node)) {
                return sourceOfNode.get(node);
            }
            int[] inputs = graph.support(literal, TruthTable.MOST_INPUTS).toIntArray();
            if (inputs.length > TwoTables.MOST_INPUTS) {
                return source(node);
            }
            int own = dropLeaves(best[node]);
            Optional<Source> fewer = own < 2 ? Optional.empty() : fewer(node, inputs, own);
            if (fewer.isEmpty()) {
                useLeaves(best[node]);
                return source(node);
            }
            sourceOfNode.put(node, fewer.get());
            return fewer.get();
        }

        private Optional<Source> fewer(int node, int[] inputs, int own) {
            Arrays.sort(inputs);
            TruthTable function = graph.function(root(node), inputs);
            List<Source> sources = new ArrayList<>();
            for (int input : inputs) {
                sources.add(new Source(false, 2 * input));
            }
            function = withoutUnneeded(function, sources);
            if (sources.size() <= tableInputs) {
                return Optional.of(add(new Table(sources, function)));
            }
            return own > 2
                    ? TwoTables.find(function, tableInputs).map(pair -> add(pair, sources))
                    : Optional.empty();
        }

        private Source add(TwoTables.Pair pair, List<Source> sources) {
            List<Source> inner = pair.innerInputs().stream().map(sources::get).toList();
            List<Source> outer = new ArrayList<>();
            pair.outerInputs().forEach(i -> outer.add(sources.get(i)));
            outer.add(add(new Table(inner, pair.inner())));
            return add(new Table(outer, pair.outer()));
        }

        /** The literal of a node that its table holds. */
        private int root(int node) {
            return 2 * node + (complemented.contains(node) ? 1 : 0);
        }

        private Source source(int node) {
            if (graph.isInput(node)) {
                return new Source(false, 2 * node);
            }
            Source known = sourceOfNode.get(node);
            if (known != null) {
                return known;
            }
            int[] leaves = best[node];
            List<Source> inputs = new ArrayList<>();
            for (int leaf : leaves) {
                inputs.add(source(leaf));
            }
            TruthTable function = graph.function(root(node), leaves);
            for (int i = leaves.length - 1; i >= 0; i--) {
                if (!graph.isInput(leaves[i]) && complemented.contains(leaves[i])) {
                    function = flipped(function, i);
                }
            }
            function = withoutUnneeded(function, inputs);
            Source source = add(new Table(inputs, function));
            sourceOfNode.put(node, source);
            return source;
        }

        /** Removes inputs on which a function does not depend from it and from a list. */
        private static TruthTable withoutUnneeded(TruthTable function, List<Source> inputs) {
            TruthTable needed = function;
            for (int i = inputs.size() - 1; i >= 0; i--) {
                if (!needed.dependsOn(i)) {
                    needed = needed.with(i, false);
                    inputs.remove(i);
                }
            }
            return needed;
        }

        private Source add(Table table) {
            return sourceOfTable.computeIfAbsent(
                    table,
                    t -> {
                        tables.add(t);
                        return new Source(true, tables.size() - 1);
                    });
        }
    }

    /** The same function of the complement of an input. */
    private static TruthTable flipped(TruthTable function, int input) {
        return TruthTable.of(function.inputs(), row -> function.value(row ^ 1 << input));
    }
}
