package padward.format.tables.csv;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.format.source.Source;

/** Read in parts on all processors, a table is what it is row by row, with the same faults. */
class PartsReaderTest {
    private static final TableShape SHAPE =
            new TableShape(
                    "t",
                    "",
                    List.of(
                            new ColumnShape("a", ColumnShape.Need.MAY, ""),
                            new ColumnShape("b", ColumnShape.Need.MAY, ""),
                            new ColumnShape("c", ColumnShape.Need.MAY, "")));

    /** What a table may contain in the middle of rows that are as plain as can be. */
    private static final List<String> ODD =
            List.of(
                    "",
                    "\"quoted\",\"as a whole\",7\n",
                    "\"two\nlines\",b,7\n",
                    "\"a \"\"mark\"\"\",b,7\n",
                    "h\"i,b,7\n",
                    "two,fields\n",
                    "\n",
                    "not,a number,x\n",
                    "\"open,b,7\n",
                    "ö,ƒ,7\n",
                    "return,b,7\rreturn,b,8\r",
                    "both,b,7\r\n",
                    "not UTF-8,\u0001,7\n",
                    "long," + "x".repeat(300_000) + ",7\n",
                    "longer," + "x".repeat(500_000) + ",7\n");

    @TempDir private Path folder;

    private record Read(List<String> rows, List<String> faults, int parts) {}

    private Read read(Path file, boolean inParts) {
        Faults faults = new Faults(100);
        List<String> rows = new ArrayList<>();
        int[] parts = new int[1];
        try (CsvTable table = new CsvTable(Source.of(file), SHAPE, faults, Progress.NONE)) {
            if (inParts) {
                table.readParts(
                        PartsReaderTest::rows,
                        part -> {
                            parts[0]++;
                            return rows.addAll(part);
                        });
            }
            rows.addAll(rows(table));
        }
        return new Read(rows, faults.first().stream().map(Object::toString).toList(), parts[0]);
    }

    private static List<String> rows(CsvTable table) {
        List<String> rows = new ArrayList<>();
        while (table.next()) {
            int c = table.integer(table.column("c"), 0, 1_000_000, -1);
            rows.add(table.text(table.column("a")) + "/" + table.text(table.column("b")) + c);
        }
        return rows;
    }

    private Path write(String text) throws Exception {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (byte b : text.getBytes(StandardCharsets.UTF_8)) {
            bytes.write(b == 1 ? 0xff : b);
        }
        return Files.write(folder.resolve("t.csv"), bytes.toByteArray());
    }

    private static void addPlain(StringBuilder text, int rows, String lineBreak, Random random) {
        for (int i = 0; i < rows; i++) {
            text.append('x').append(random.nextInt(100)).append("y7/w[").append(i % 50);
            text.append("], b ,").append(random.nextInt(999)).append(lineBreak);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"\n", "\r\n"})
    void oddRowsAreReadAndReportedAtTheSamePlace(String lineBreak) throws Exception {
        int seed = 0;
        for (String odd : ODD) {
            Random random = new Random(seed++);
            StringBuilder text = new StringBuilder("a,b,c" + lineBreak);
            addPlain(text, random.nextInt(30_000), lineBreak, random);
            text.append(odd);
            addPlain(text, random.nextInt(30_000), lineBreak, random);
            if (random.nextBoolean()) {
                text.setLength(text.length() - lineBreak.length());
            }
            Path file = write(text.toString());
            Read plain = read(file, false);
            Read inParts = read(file, true);
            if (!odd.contains("UTF-8")) { // how many rows in front of it are lost is by chance
                assertThat(inParts.rows().equals(plain.rows())).as(odd).isTrue();
            }
            assertThat(inParts.faults()).as(odd).isEqualTo(plain.faults());
        }
    }

    @Test
    void plainRowsAreAllReadInParts() throws Exception {
        StringBuilder text = new StringBuilder("a,b,c\n");
        addPlain(text, 60_000, "\n", new Random(1));
        Read read = read(write(text.toString()), true);
        assertThat(read.rows()).hasSize(60_000);
        assertThat(read.parts()).isGreaterThan(3);
    }

    /** Whoever cannot take a part is given its rows, and all behind them, one by one. */
    @Test
    void aPartThatIsNotTakenIsReadRowByRow() throws Exception {
        StringBuilder text = new StringBuilder("a,b,c\n");
        addPlain(text, 60_000, "\n", new Random(2));
        Path file = write(text.toString());
        List<String> rows = new ArrayList<>();
        int[] parts = new int[1];
        long first;
        try (CsvTable table = new CsvTable(Source.of(file), SHAPE, new Faults(1), Progress.NONE)) {
            table.readParts(PartsReaderTest::rows, part -> parts[0]++ < 2 && rows.addAll(part));
            first = table.row();
            rows.addAll(rows(table));
        }
        assertThat(first).isGreaterThan(1).isLessThan(60_000);
        assertThat(rows.equals(read(file, false).rows())).isTrue();
    }

    /** What other threads read may change once this one goes on. */
    @Test
    void nothingIsReadElsewhereOnceReadingInPartsHasEnded() throws Exception {
        StringBuilder text = new StringBuilder("a,b,c\nfirst,b,1\n");
        addPlain(text, 100_000, "\n", new Random(3));
        Thread here = Thread.currentThread();
        CountDownLatch begun = new CountDownLatch(1);
        AtomicInteger readElsewhere = new AtomicInteger();
        Faults faults = new Faults(1);
        try (CsvTable table =
                new CsvTable(Source.of(write(text.toString())), SHAPE, faults, Progress.NONE)) {
            table.readParts(
                    part -> {
                        part.next();
                        boolean first = part.text(part.column("a")).equals("first");
                        if (Thread.currentThread() == here) {
                            await(begun, first ? 0 : 5000);
                        } else if (!first) {
                            readElsewhere.incrementAndGet();
                            begun.countDown();
                            await(new CountDownLatch(1), 300);
                            readElsewhere.decrementAndGet();
                        }
                        return rows(part);
                    },
                    part -> {
                        await(begun, 5000);
                        return false;
                    });
            assertThat(readElsewhere).hasValue(0);
        }
    }

    private static void await(CountDownLatch latch, int milliseconds) {
        try {
            latch.await(milliseconds, TimeUnit.MILLISECONDS);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }
}
