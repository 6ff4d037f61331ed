package padward.watch.logic;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.watch.circuit.TruthTable;

/** Lookup tables compute the function they were made for, in all rows, and are few. */
class TableMapperTest {
    /** A graph with so many inputs. */
    private static List<Integer> inputs(LogicGraph graph, int count) {
        return IntStream.range(0, count).mapToObj(i -> graph.input()).toList();
    }

    /** The value of a source, by the contents of the tables alone. */
    private static boolean value(
            TableMapper.Cover cover, TableMapper.Source source, List<Integer> inputs, int row) {
        boolean[] values = new boolean[cover.tables().size()];
        for (int t = 0; t < values.length; t++) {
            TableMapper.Table table = cover.tables().get(t);
            int own = 0;
            for (int i = 0; i < table.inputs().size(); i++) {
                own |= of(table.inputs().get(i), values, inputs, row) ? 1 << i : 0;
            }
            values[t] = table.function().value(own);
        }
        return of(source, values, inputs, row);
    }

    private static boolean of(
            TableMapper.Source source, boolean[] tables, List<Integer> inputs, int row) {
        return source.isTable()
                ? tables[source.number()]
                : (row >> inputs.indexOf(source.number()) & 1) != 0;
    }

    private static int tables(TruthTable function, int k) {
        LogicGraph graph = new LogicGraph();
        List<Integer> inputs = inputs(graph, function.inputs());
        return check(graph, inputs, graph.add(function, inputs), function, k);
    }

    /** Compares all rows; how many tables there are. */
    private static int check(
            LogicGraph graph, List<Integer> inputs, int literal, TruthTable function, int k) {
        TableMapper.Cover cover = TableMapper.cover(graph, k, List.of(literal));
        for (TableMapper.Table table : cover.tables()) {
            assertThat(table.inputs()).hasSizeLessThanOrEqualTo(k).doesNotHaveDuplicates();
        }
        for (int row = 0; row < function.rows(); row++) {
            boolean mapped = value(cover, cover.roots().get(0), inputs, row);
            if (mapped != function.value(row)) {
                throw new AssertionError("row " + row + " of " + function + " with " + k);
            }
        }
        return cover.tables().size();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void drawnFunctionsAreMappedInAllRows(long seed) {
        Random random = new Random(seed);
        for (int k = 2; k <= 6; k++) {
            for (int n = 0; n <= 9; n++) {
                TruthTable function = TruthTable.of(n, row -> random.nextInt(3) == 0);
                int tables = tables(function, k);
                if (n <= k) {
                    assertThat(tables).as(n + " in " + k).isLessThanOrEqualTo(1);
                }
            }
        }
    }

    @ParameterizedTest
    @CsvSource({"11,4,5", "12,6,6", "13,4,7", "16,4,8", "16,6,9"})
    void drawnFunctionsOfManyInputsAreMappedInAllRows(int n, int k, long seed) {
        Random random = new Random(seed);
        // some gates of drawn inputs, so that the graph, not its number of rows, decides
        for (int i = 0; i < 4; i++) {
            LogicGraph graph = new LogicGraph();
            List<Integer> inputs = inputs(graph, n);
            List<Integer> literals = new ArrayList<>(inputs);
            List<TruthTable> tables = new ArrayList<>();
            for (int input = 0; input < n; input++) {
                int bit = input;
                tables.add(TruthTable.of(n, row -> (row >> bit & 1) != 0));
            }
            for (int gate = 0; gate < 40; gate++) {
                int a = random.nextInt(literals.size());
                int b = random.nextInt(literals.size());
                TruthTable ta = tables.get(a);
                TruthTable tb = tables.get(b);
                switch (random.nextInt(3)) {
                    case 0 -> {
                        literals.add(graph.and(literals.get(a), LogicGraph.not(literals.get(b))));
                        tables.add(TruthTable.of(n, r -> ta.value(r) && !tb.value(r)));
                    }
                    case 1 -> {
                        literals.add(graph.or(literals.get(a), literals.get(b)));
                        tables.add(TruthTable.of(n, r -> ta.value(r) || tb.value(r)));
                    }
                    default -> {
                        literals.add(graph.xor(literals.get(a), literals.get(b)));
                        tables.add(TruthTable.of(n, r -> ta.value(r) != tb.value(r)));
                    }
                }
            }
            int last = literals.size() - 1;
            check(graph, inputs, literals.get(last), tables.get(last), k);
            check(graph, inputs, LogicGraph.not(literals.get(last)), tables.get(last).not(), k);
        }
    }

    /** All functions of three inputs; with tables of two, by brute force over all pairs of them. */
    @Test
    void functionsOfTwoSmallTablesAreFoundAndOnlyThose() {
        Set<TruthTable> two = new HashSet<>();
        for (int a = 0; a < 3; a++) {
            for (int b = 0; b < 3; b++) {
                for (int c = 0; c < 3; c++) {
                    int[] in = {a, b, c};
                    for (int inner = 0; inner < 16; inner++) {
                        for (int outer = 0; outer < 16; outer++) {
                            int g = inner;
                            int h = outer;
                            two.add(
                                    TruthTable.of(
                                            3,
                                            row -> {
                                                int x = row >> in[0] & 1 | (row >> in[1] & 1) << 1;
                                                int y = g >> x & 1 | (row >> in[2] & 1) << 1;
                                                return (h >> y & 1) != 0;
                                            }));
                        }
                    }
                }
            }
        }
        for (int number = 0; number < 256; number++) {
            int rows = number;
            TruthTable function = TruthTable.of(3, row -> (rows >> row & 1) != 0);
            assertThat(tables(function, 2) <= 2)
                    .as(function.toString())
                    .isEqualTo(two.contains(function));
        }
    }

    @ParameterizedTest
    @CsvSource({"3,4", "3,5", "4,5", "4,6", "4,7", "5,8", "5,9", "6,9", "6,11"})
    void whatTwoTablesHoldNeedsNoMore(int k, int n) {
        long seed = 100L * k + n;
        Random random = new Random(seed);
        for (int i = 0; i < 20; i++) {
            TruthTable inner = TruthTable.of(k, row -> random.nextBoolean());
            TruthTable outer = TruthTable.of(k, row -> random.nextBoolean());
            List<Integer> order = new ArrayList<>(IntStream.range(0, n).boxed().toList());
            Collections.shuffle(order, random);
            // the inner table reads the first k, the outer the rest and some of the first
            List<Integer> rest = new ArrayList<>(order.subList(k, n));
            rest.addAll(order.subList(0, 2 * k - 1 - n));
            TruthTable function =
                    TruthTable.of(
                            n,
                            row -> {
                                int a = 0;
                                for (int j = 0; j < k; j++) {
                                    a |= (row >> order.get(j) & 1) << j;
                                }
                                int b = inner.value(a) ? 1 : 0;
                                for (int j = 0; j < rest.size(); j++) {
                                    b |= (row >> rest.get(j) & 1) << j + 1;
                                }
                                return outer.value(b);
                            });
            assertThat(tables(function, k)).as("seed " + seed).isLessThanOrEqualTo(2);
        }
    }

    /**
     * Harris and Harris, Digital Design and Computer Architecture, section 5.6 (from memory): with
     * tables of four inputs, "and" of seven inputs takes two, as does one of four inputs chosen by
     * two; a full adder's sum and carry take one each.
     */
    @Test
    void aTextbooksExamplesTakeAsManyTablesAsThere() {
        assertThat(tables(TruthTable.of(7, row -> row == 127), 4)).isEqualTo(2);
        assertThat(tables(TruthTable.of(6, row -> (row >> 2 + (row & 3) & 1) != 0), 4))
                .isEqualTo(2);
        assertThat(tables(TruthTable.of(3, row -> Integer.bitCount(row) % 2 != 0), 4)).isEqualTo(1);
        assertThat(tables(TruthTable.of(3, row -> Integer.bitCount(row) > 1), 4)).isEqualTo(1);
    }

    @ParameterizedTest
    @CsvSource({"5,4", "7,4", "8,4", "10,4", "13,4", "16,4", "16,6", "33,6", "9,2", "40,8"})
    void manyInputsTakeTheFewestTables(int n, int k) {
        int fewest = (n - 1 + k - 2) / (k - 1);
        for (boolean parity : new boolean[] {false, true}) {
            LogicGraph graph = new LogicGraph();
            ManyInputFunctions many = new ManyInputFunctions(graph, k);
            List<Integer> inputs = inputs(graph, n);
            int literal = parity ? many.parity(inputs) : many.any(inputs);
            assertThat(TableMapper.cover(graph, k, List.of(literal)).tables()).hasSize(fewest);
        }
    }

    /** Eight pairs that are equal: two pairs in each table of four, and one for the four. */
    @Test
    void comparedVectorsFillTheirTables() {
        LogicGraph graph = new LogicGraph();
        List<Integer> pairs =
                IntStream.range(0, 8)
                        .mapToObj(i -> LogicGraph.not(graph.xor(graph.input(), graph.input())))
                        .toList();
        int equal = new ManyInputFunctions(graph, 4).all(pairs);
        assertThat(TableMapper.cover(graph, 4, List.of(equal)).tables()).hasSize(5);
    }

    @Test
    void complementsAndConstantsAreTables() {
        LogicGraph graph = new LogicGraph();
        int a = graph.input();
        int b = graph.input();
        int both = graph.and(a, b);
        List<Integer> roots =
                List.of(
                        a,
                        LogicGraph.not(a),
                        both,
                        LogicGraph.not(both),
                        LogicGraph.HIGH,
                        LogicGraph.LOW,
                        LogicGraph.not(graph.or(a, b)));
        TableMapper.Cover cover = TableMapper.cover(graph, 2, roots);
        List<Integer> inputs = List.of(a, b);
        for (int row = 0; row < 4; row++) {
            int now = row;
            List<Boolean> values =
                    cover.roots().stream().map(s -> value(cover, s, inputs, now)).toList();
            boolean one = (row & 1) != 0;
            boolean other = (row & 2) != 0;
            assertThat(values)
                    .containsExactly(
                            one, !one, one && other, !(one && other), true, false, !(one || other));
        }
        assertThat(cover.roots().get(0).isTable()).isFalse();
        assertThat(cover.tables()).hasSize(6);
    }
}
