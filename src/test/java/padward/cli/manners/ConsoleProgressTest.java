package padward.cli.manners;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import padward.base.Progress;

/** When the progress of long work is printed. */
class ConsoleProgressTest {
    /** Progress with a clock and a terminal of the test's own. */
    private static final class Made extends ConsoleProgress {
        private static long millis;

        private final boolean terminal;
        private int looked;

        Made(StringWriter to, boolean terminal) {
            super(new PrintWriter(to));
            this.terminal = terminal;
        }

        @Override
        long nanos() {
            return millis * 1_000_000L;
        }

        @Override
        boolean onTerminal() {
            looked++;
            return terminal;
        }

        void at(long now, String message) {
            millis = now;
            report(0.5, message);
        }
    }

    private static Made made(StringWriter to, boolean terminal) {
        Made.millis = 0;
        return new Made(to, terminal);
    }

    @Test
    void theFirstLineComesAfterASecondAndTheNextEachThree() {
        StringWriter err = new StringWriter();
        Made progress = made(err, true);
        progress.at(999, "a");
        assertThat(progress.looked).as("looks for a terminal before a second").isZero();
        progress.at(1000, "b");
        progress.at(3999, "c");
        progress.at(4000, "d");
        progress.at(4001, "e");
        progress.at(9000, "f");
        progress.report(-1, "g");
        assertThat(err.toString().lines())
                .containsExactly("… b (50 %)", "… d (50 %)", "… f (50 %)");
        assertThat(progress.looked).isEqualTo(1);
    }

    @Test
    void nothingIsPrintedWhereThereIsNoTerminal() {
        StringWriter err = new StringWriter();
        Made progress = made(err, false);
        progress.at(1000, "b");
        progress.at(60_000, "c");
        assertThat(err.toString()).isEmpty();
    }

    @Test
    void quietWorkPrintsNothing() {
        PrintWriter err = new PrintWriter(new StringWriter());
        assertThat(ConsoleProgress.of(err, true)).isSameAs(Progress.NONE);
        assertThat(ConsoleProgress.of(err, false)).isInstanceOf(ConsoleProgress.class);
    }

    @Test
    void anInterruptedThreadStops() {
        Progress progress = ConsoleProgress.of(new PrintWriter(new StringWriter()), false);
        assertThat(progress.cancelled()).isFalse();
        Thread.currentThread().interrupt();
        try {
            assertThat(progress.cancelled()).isTrue();
            assertThat(progress.within(60_000).cancelled()).isTrue();
        } finally {
            Thread.interrupted();
        }
    }

    /** Only what is short by its nature reports nothing. */
    @Test
    void everyCommandReportsItsLongWork() throws IOException {
        Path commands = Path.of("src/main/java/padward/cli");
        try (Stream<Path> files = Files.walk(commands)) {
            List<Path> sources = files.filter(f -> f.toString().endsWith(".java")).toList();
            Set<String> silent =
                    sources.stream()
                            .filter(f -> text(f).contains("Progress.NONE"))
                            .map(f -> f.getFileName().toString())
                            .collect(Collectors.toSet());
            assertThat(silent)
                    .isSubsetOf(
                            "QuestionOptions.java", // the table of questions
                            "BusTable.java", // the routes of one group's clocks
                            "LedgerOption.java",
                            "OwnOption.java", // the netlist of one watch circuit
                            "SheetLines.java");
        }
    }

    private static String text(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException fault) {
            throw new AssertionError(fault);
        }
    }
}
