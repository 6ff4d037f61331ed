package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.offset;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
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
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
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

    @Test
    void namesThatLookLikeFormulasAreGuardedUnlessTheyAreToBeExact() throws Exception {
        Path design = folder.resolve("only.design.json");
        String text = Files.readString(design);
        assertThat(text).contains("\"alarm/beep\"");
        Files.writeString(design, text.replace("\"alarm/beep\"", "\"=1+beep\""));
        Files.delete(folder.resolve("l.json"));
        run("keep", "--net", "=1+beep", "--pad", "J1.1");
        Path file = folder.resolve("s.csv");
        run("sheet", "-o", file.toString());
        assertThat(Files.readString(file)).contains(",'=1+beep,");
        run("sheet", "-o", file.toString(), "--exact-names");
        assertThat(Files.readString(file)).contains(",=1+beep,").doesNotContain("'");
    }

    /** The page through a general reader of HTML. */
    @Test
    void thePageListsCautionsFirstAndEveryPlace() throws Exception {
        Document page = Jsoup.parse(sheet("s.html"));
        assertThat(page.select(".lines tbody tr")).hasSize(2);
        assertThat(page.select(".lines tbody .at b").eachText()).allMatch(t -> t.startsWith("J1."));
        assertThat(page.select(".cautions").text())
                .contains("local codes, site rules and licensed practice stand above this tool");
        assertThat(page.select("svg rect[fill=#0072B2]")).hasSize(2);
        assertThat(page.select("svg text").eachText()).contains("ch 1", "ch 2");
        assertThat(page.select(".restore li").text()).contains("--entry 1");
        String text = page.body().text();
        assertThat(text.indexOf("Before you connect")).isLessThan(text.indexOf("Channels"));
        assertThat(page.select("link, script, img, object, [src], [href]")).isEmpty();
    }

    /** The stated rate is judged, not repeated as advice. */
    @Test
    void theNeededSampleRateIsNotTheGivenOne() throws Exception {
        Path file = folder.resolve("s.html");
        run("sheet", "-o", file.toString(), "--sample-mhz", "100", "--clock-mhz", "125");
        assertThat(Jsoup.parse(Files.readString(file)).select(".seen").text())
                .contains("500 MS/s are needed, four samples for the shortest level of 8.00 ns.")
                .contains("takes 100 MS/s: levels shorter than 10.00 ns can be missed");
    }

    /** RFC 4180, through a general reader of CSV. */
    @Test
    void theCsvIsReadBack() throws Exception {
        String text = sheet("s.csv");
        assertThat(text).contains("\r\n");
        List<CSVRecord> records = table(text);
        assertThat(records).hasSize(2);
        for (CSVRecord one : records) {
            int fast = Integer.parseInt(one.get("instrumentFast_ps"));
            int atPad = Integer.parseInt(one.get("padFast_ps"));
            // 0.3 m of cable at velocity factor 0.66 take 1.516 ns; the trace comes on top.
            assertThat(fast - atPad).isBetween(1516, 2200);
            assertThat(Integer.parseInt(one.get("addToTime_ps"))).isNotNegative();
        }
        assertThat(records).anyMatch(r -> Integer.parseInt(r.get("addToTime_ps")) == 0);
    }

    private static List<CSVRecord> table(String text) throws Exception {
        CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
        try (CSVParser parser = format.parse(new StringReader(text))) {
            return parser.getRecords();
        }
    }

    /** IEEE 1497-2001, through a reader of its grammar. */
    @Test
    void theSdfIsReadBack() throws Exception {
        SdfReader.File file = SdfReader.read(sheet("s.sdf"));
        assertThat(file.timescale()).isEqualTo("1ps");
        assertThat(file.interconnects()).hasSize(2);
        List<CSVRecord> table = table(sheet("s.csv"));
        for (int i = 0; i < 2; i++) {
            SdfReader.Interconnect wire = file.interconnects().get(i);
            assertThat(wire.from()).startsWith("pump/level/sample[").endsWith("]/out");
            assertThat(wire.to()).isEqualTo(table.get(i).get("port"));
            for (List<String> triple : wire.delays()) {
                assertThat(triple.get(0)).isEqualTo(table.get(i).get("padFast_ps"));
                assertThat(triple.get(1)).isEmpty();
                assertThat(triple.get(2)).isEqualTo(table.get(i).get("padSlow_ps"));
            }
        }
    }

    /** The PDF's text, through a general reader of PDF; on both sizes of paper. */
    @ParameterizedTest
    @CsvSource({"a4, 595, 842", "letter, 612, 792"})
    void thePdfHasTheTextOfThePage(String paper, float width, float height) throws Exception {
        Path file = folder.resolve("s.pdf");
        run("keep", "-n", "pump/run/decide", "-p", "J2.1", "--note", "why <this> & that");
        assertThat(run("sheet", "-o", file.toString(), "--paper", paper)).contains("3 signals");
        Path page = folder.resolve("s.html");
        run("sheet", "-o", page.toString(), "--paper", paper);
        try (PDDocument pdf = Loader.loadPDF(file.toFile())) {
            assertThat(pdf.getNumberOfPages()).isEqualTo(2);
            assertThat(pdf.getPage(0).getMediaBox().getWidth()).isCloseTo(width, offset(1f));
            assertThat(pdf.getPage(0).getMediaBox().getHeight()).isCloseTo(height, offset(1f));
            String text = plain(new PDFTextStripper().getText(pdf));
            assertThat(text).contains(plain("why <this> & that"), plain("page 2 of 2"));
            for (Element part :
                    Jsoup.parse(Files.readString(page)).select("li, .lines b, .chain td")) {
                assertThat(text).contains(plain(part.text()));
            }
            for (COSName name : pdf.getPage(0).getResources().getFontNames()) {
                assertThat(pdf.getPage(0).getResources().getFont(name).isEmbedded()).isTrue();
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"\u000b", "\u0000", "\ud800", "\uffff", "\u001b[1m"})
    void aNoteWithIllegalCharactersIsPrinted(String note) {
        run("keep", "-n", "pump/run/decide", "-p", "J2.1", "--note", "why " + note);
        for (String form : List.of("pdf", "html", "csv", "sdf")) {
            Path file = folder.resolve("s." + form);
            assertThat(run("sheet", "-o", file.toString())).contains("3 signals");
        }
    }

    /** Lines are broken elsewhere on paper. */
    private static String plain(String text) {
        return text.replaceAll("[\\s\u00a0\u2022]+", "");
    }

    @Test
    void anUnknownEndingIsReported() {
        assertThat(run("sheet", "-o", folder.resolve("s.txt").toString()))
                .contains("expected a name that ends in .html, .pdf, .csv or .sdf");
    }

    /** What holds at every bench is on the page, once each, and what is serious looks so. */
    @Test
    void thePageSaysHowLeadsAreConnected() throws Exception {
        Document page = Jsoup.parse(sheet("s.html"));
        List<String> cautions = page.select(".cautions li").eachText();
        for (String text :
                List.of(
                        "Switch the power off while leads are clipped on",
                        "Wear a wrist strap",
                        "Use a ground lead for each channel or two",
                        "While a design is loaded, outputs float or are pulled")) {
            assertThat(cautions).filteredOn(c -> c.contains(text)).hasSize(1);
        }
        assertThat(page.select(".cautions li.serious").eachText())
                .allMatch(t -> t.startsWith("Danger: "));
        assertThat(page.select(".banks").text()).contains("mA before").contains("mA after");
        assertThat(page.select(".lines .ld .place").eachText())
                .containsExactly("name", "pod, colour", "name", "pod, colour");
    }

    /** The caution about ringing is on the page when leads are long against the edges. */
    @Test
    void longLeadsRing() throws Exception {
        Path fabric = folder.resolve("only.fabric.json");
        String delay = "\"delay_ps\": [1900, 3100]";
        String edges =
                ", \"output\": {\"rated_pf\": 5, \"rise_ps\": [900, 1600], \"ohms\": [25, 45]}";
        Files.writeString(fabric, Files.readString(fabric).replace(delay, delay + edges));
        Document page = Jsoup.parse(sheet("s.html"));
        assertThat(page.select(".cautions").text())
                .contains("trace and lead are ")
                .contains("expect ringing");
        assertThat(page.select(".under").text())
                .contains("Load not stated, so the rated load is taken: channels 1, 2.");
    }

    /** A wrong drawing puts a lead on a supply. */
    @Test
    void aHeaderWithoutStatedGeometryIsNotDrawn() throws Exception {
        Path board = folder.resolve("board.json");
        JsonObject file = JsonParser.parseString(Files.readString(board)).getAsJsonObject();
        assertThat(file.remove("headers")).isNotNull();
        Files.writeString(board, file.toString());
        Document page = Jsoup.parse(sheet("s.html"));
        assertThat(page.select("svg rect[fill=#0072B2]")).isEmpty();
        assertThat(page.body().text()).contains("does not state how the pins are arranged");
        assertThat(page.select(".lines tbody .at b").eachText()).allMatch(t -> t.startsWith("J1."));
    }
}
