package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import padward.cli.output.NaturalOrder;

/** Lists of nets and pads are sorted, filtered, shortened, and printed as CSV. */
class ListsTest {
    private static final String DESIGN = "fixtures/small/only.design.json";

    private static CommandRun run(String... words) {
        List<Object> all = new ArrayList<>(List.of(words));
        Collections.addAll(all, "--design", DESIGN);
        return CommandRun.of(all.toArray());
    }

    private static List<CSVRecord> rows(CommandRun run) throws Exception {
        CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
        try (var parsed = format.parse(new StringReader(run.out()))) {
            return parsed.getRecords();
        }
    }

    private static List<String> column(CommandRun run, String head) throws Exception {
        return rows(run).stream().map(r -> r.get(head)).toList();
    }

    @Test
    void netsAreSortedByTheirNumbers() throws Exception {
        List<String> plain = column(run("nets", "--csv"), "net");
        List<Integer> fanOut =
                column(run("nets", "--csv", "--sort", "fan-out"), "fan-out").stream()
                        .map(Integer::valueOf)
                        .toList();
        assertThat(fanOut).hasSameSizeAs(plain).isSortedAccordingTo(Collections.reverseOrder());
        assertThat(fanOut.get(0)).isGreaterThan(fanOut.get(fanOut.size() - 1));
        assertThat(column(run("nets", "--csv", "--sort", "name"), "net"))
                .containsExactlyInAnyOrderElementsOf(plain)
                .isSortedAccordingTo(new NaturalOrder());
    }

    @Test
    void padsAreFilteredAndSorted() throws Exception {
        assertThat(column(run("pads", "--csv", "--header", "j1", "--sort", "pin"), "pin"))
                .containsExactly("D7", "D8", "E1", "E2");
        List<String> pins = column(run("pads", "--csv", "--sort", "pin"), "pin");
        List<String> named = pins.stream().filter(p -> !p.isEmpty()).toList();
        assertThat(named).isSortedAccordingTo(new NaturalOrder());
        assertThat(pins.subList(0, named.size())).isEqualTo(named);
        assertThat(column(run("pads", "--csv", "--free"), "port")).containsOnly("");
        assertThat(column(run("pads", "--csv", "--used"), "port")).isNotEmpty().doesNotContain("");
        assertThat(column(run("pads", "--csv", "--bank", "b"), "bank")).containsOnly("B");
        CommandRun wrong = run("pads", "--bank", "Z");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("--bank").contains("“Z”");
    }

    @Test
    void aShortenedListSaysSoBesideTheCsv() throws Exception {
        for (List<String> words :
                List.of(
                        List.of("nets", "--csv", "--limit", "2"),
                        List.of("pads", "--csv", "--limit", "2"),
                        List.of(
                                "survey",
                                "--net",
                                "pump/level/sample[1]",
                                "--csv",
                                "--limit",
                                "2"))) {
            CommandRun run = run(words.toArray(String[]::new));
            assertThat(rows(run)).hasSize(2);
            assertThat(run.err()).contains("more.");
            boolean warned = run.err().contains("Before driving a pad");
            assertThat(warned).isEqualTo(words.get(0).equals("survey"));
        }
        CommandRun none = run("pads", "--csv", "--free", "--used");
        assertThat(rows(none)).isEmpty();
        assertThat(none.err()).contains("No pads match the filter.");
    }

    @Test
    void twoFormsAtOnceAreRefused() {
        CommandRun both = run("nets", "--json", "--csv");
        assertThat(both.code()).isEqualTo(2);
        assertThat(both.err()).contains("only one of these options, found --json, --csv");
        assertThat(run("nets", "--csv", "nothing*").out()).startsWith("net,driver");
    }

    @Test
    void netsOfAGroupAreSeparatedByCommas() {
        String one = "pump/level/sample[1]";
        CommandRun comma = run("bus", "--nets", one + ",float_hi", "--pads", "header J1", "--json");
        CommandRun twice =
                run("bus", "--nets", one, "--nets", "float_hi", "--pads", "header J1", "--json");
        assertThat(comma.code()).as(comma.err()).isLessThan(2);
        assertThat(comma.out()).isEqualTo(twice.out());
        CommandRun any =
                run("watch", "any", "--nets", one + ",float_hi", "--pad", "J1.2", "--json");
        assertThat(any.code()).as(any.err()).isLessThan(2);
    }

    /** An order, and numbers in it as numbers. */
    @Test
    void numbersInNamesCountAsNumbers() {
        NaturalOrder order = new NaturalOrder();
        List<String> sorted =
                List.of(
                        "", "2", "10", "A", "A2", "a3", "A10", "A10/b", "A010/b1", "b", "b[9]",
                        "b[10]");
        Random random = new Random(4);
        for (int round = 0; round < 50; round++) {
            List<String> mixed = new ArrayList<>(sorted);
            Collections.shuffle(mixed, random);
            mixed.sort(order);
            assertThat(mixed).isEqualTo(sorted);
        }
        assertThat(order.compare("a1", "A1")).isPositive();
        assertThat(order.compare("a01", "a1")).isNotZero();
        assertThat(order.compare("a1", "a1")).isZero();
    }
}
