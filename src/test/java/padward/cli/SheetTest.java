package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** The sheet for the bench, read back by general readers. */
class SheetTest {
    private static final String[] FILES = {"only.design.json", "only.fabric.json", "board.json"};

    @TempDir private Path folder;

    @BeforeEach
    void keepAGroup() throws Exception {
        for (String name : FILES) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        run("bus", "--nets", "pump/level/sample[*]", "--pads", "header J1");
    }

    private String run(String command, String... more) {
        List<String> words = new ArrayList<>(List.of(command));
        words.addAll(List.of("--design", folder.resolve("only.design.json").toString()));
        words.addAll(List.of("--ledger", folder.resolve("l.json").toString()));
        words.addAll(List.of(more));
        StringWriter out = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(out));
        line.execute(words.toArray(new String[0]));
        return out.toString();
    }

    private String sheet(String name) throws Exception {
        Path file = folder.resolve(name);
        assertThat(run("sheet", "-o", file.toString(), "--lead-m", "0.3"))
                .contains("Written: ")
                .contains("2 signals");
        return Files.readString(file);
    }

    /** The page through a general reader of HTML. */
    @Test
    void thePageNamesEveryPlaceAndTheCautionsFirst() throws Exception {
        Document page = Jsoup.parse(sheet("s.html"));
        assertThat(page.select("#lines tbody tr")).hasSize(2);
        assertThat(page.select("#lines tbody tr").get(0).select("td").eachText().get(0))
                .startsWith("J1.");
        assertThat(page.select("#cautions li").eachText())
                .anyMatch(t -> t.contains("the board's responsible engineer decides"));
        assertThat(page.select("svg rect[stroke-width]")).hasSize(2);
        assertThat(page.select("#restore li").eachText()).hasSize(1);
        String text = page.body().text();
        assertThat(text.indexOf("Before you connect"))
                .isLessThan(text.indexOf("Where each signal is"));
        assertThat(page.select("link, script, img")).isEmpty();
    }

    /** RFC 4180, through a general reader of CSV. */
    @Test
    void theTableIsReadBack() throws Exception {
        String text = sheet("s.csv");
        assertThat(text).contains("\r\n");
        CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
        try (CSVParser parser = format.parse(new StringReader(text))) {
            List<CSVRecord> records = parser.getRecords();
            assertThat(records).hasSize(2);
            for (CSVRecord one : records) {
                int fast = Integer.parseInt(one.get("instrumentFast_ps"));
                int atPad = Integer.parseInt(one.get("padFast_ps"));
                // 0.3 m of cable at 0.66 of light's speed take 1.516 ns; the trace comes on top.
                assertThat(fast - atPad).isBetween(1516, 2200);
                assertThat(Integer.parseInt(one.get("correction_ps"))).isNotNegative();
            }
            assertThat(records).anyMatch(r -> Integer.parseInt(r.get("correction_ps")) == 0);
        }
    }

    /** IEEE 1497-2001 (names of constructs from memory), through a small reader of its own. */
    @Test
    void theDelaysAreReadBack() throws Exception {
        Object[] tree = new SdfTree(sheet("s.sdf")).read();
        assertThat(tree[0]).isEqualTo("DELAYFILE");
        assertThat(((Object[]) tree[1])[0]).isEqualTo("SDFVERSION");
        Object[] cell = (Object[]) tree[tree.length - 1];
        Object[] absolute = (Object[]) ((Object[]) cell[cell.length - 1])[1];
        assertThat(absolute[0]).isEqualTo("ABSOLUTE");
        assertThat(absolute).hasSize(3);
        for (int i = 1; i < absolute.length; i++) {
            Object[] wire = (Object[]) absolute[i];
            assertThat(wire[0]).isEqualTo("INTERCONNECT");
            assertThat((String) wire[1]).startsWith("pump/level/sample\\[").endsWith("/out");
            String[] values = ((String) ((Object[]) wire[3])[0]).split(":", -1);
            assertThat(values).hasSize(3);
            assertThat(values[1]).isEmpty();
            assertThat(Integer.parseInt(values[0])).isLessThan(Integer.parseInt(values[2]));
        }
    }

    @Test
    void anotherEndingIsTold() {
        assertThat(run("sheet", "-o", folder.resolve("s.txt").toString()))
                .contains("expected a name that ends in .html, .csv or .sdf");
    }

    /** Brackets, words and quoted texts. */
    private static final class SdfTree {
        private final String text;
        private int at;

        SdfTree(String text) {
            this.text = text;
        }

        Object[] read() {
            skip();
            assertThat(text.charAt(at)).isEqualTo('(');
            at++;
            List<Object> parts = new ArrayList<>();
            for (skip(); text.charAt(at) != ')'; skip()) {
                parts.add(text.charAt(at) == '(' ? read() : word());
            }
            at++;
            return parts.toArray();
        }

        private void skip() {
            while (Character.isWhitespace(text.charAt(at))) {
                at++;
            }
        }

        private String word() {
            int from = at;
            if (text.charAt(at) == '"') {
                at = text.indexOf('"', at + 1) + 1;
                return text.substring(from, at);
            }
            while (" \n()".indexOf(text.charAt(at)) < 0) {
                at += text.charAt(at) == '\\' ? 2 : 1;
            }
            return text.substring(from, at);
        }
    }
}
