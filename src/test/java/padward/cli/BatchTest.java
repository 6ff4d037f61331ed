package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.Reader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.breakout.ask.WantedDriver;
import padward.cli.batch.BatchRun;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.format.question.QuestionLines;
import padward.format.source.Source;
import padward.route.search.SearchEngineKind;
import padward.unblock.why.SearchLimits;

/** Any number of questions in one run, a line of JSON each. */
class BatchTest {
    private static final Path DESIGN = Path.of("fixtures/small/only.design.json");
    private static final String SAMPLE = "pump/level/sample[1]";

    @TempDir private Path folder;

    private record Answered(int code, List<JsonObject> lines, String err) {
        static Answered of(CommandRun run) {
            return new Answered(
                    run.code(),
                    run.out()
                            .lines()
                            .map(l -> JsonParser.parseString(l).getAsJsonObject())
                            .toList(),
                    run.err());
        }

        JsonObject answer(int line) {
            return lines.get(line).getAsJsonObject("answer");
        }

        JsonObject error(int line) {
            return lines.get(line).getAsJsonObject("error");
        }

        /** Of which line of the file each answer is, and what. */
        List<String> words() {
            return lines.stream()
                    .map(
                            l ->
                                    l.get("line").getAsInt()
                                            + " "
                                            + (l.has("error")
                                                    ? "error"
                                                    : l.getAsJsonObject("answer")
                                                            .get("answer")
                                                            .getAsString()))
                    .toList();
        }
    }

    private Answered ask(String questions, Object... more) throws Exception {
        Path file = Files.writeString(folder.resolve("questions"), questions);
        Object[] words = new Object[5 + more.length];
        System.arraycopy(new Object[] {"ask", "-d", DESIGN, "--batch", file}, 0, words, 0, 5);
        System.arraycopy(more, 0, words, 5, more.length);
        return Answered.of(CommandRun.of(words));
    }

    @Test
    void eachAnswerIsThatOfAskInTheOrderOfTheRows() throws Exception {
        Answered all =
                ask(
                        "pad;#why;net;corner;id\n"
                                + ("J1.2;;" + SAMPLE + ";fast;first\n\n")
                                + ("J2.1;\"a; b\";" + SAMPLE + ";;second\n"));
        assertThat(all.words()).containsExactly("2 open", "4 blocked");
        assertThat(all.code()).isEqualTo(1);
        assertThat(all.lines().get(0).get("id").getAsString()).isEqualTo("first");
        assertThat(all.answer(0)).isEqualTo(one("J1.2", "--corner", "fast"));
        assertThat(all.answer(1)).isEqualTo(one("J2.1"));
    }

    /** A tab is a separator and a blank, too: empty fields at the ends of a row are fields. */
    @Test
    void rowsBetweenTabsMayBeginAndEndWithEmptyFields() throws Exception {
        Answered all =
                ask(
                        "id\tnet\tpad\tcorner\twhat-if\n"
                                + ("q1\t" + SAMPLE + "\tJ1.2\t\t\n")
                                + " \t\n"
                                + ("\t" + SAMPLE + "\tJ2.1\t\t\n"));
        assertThat(all.words()).containsExactly("2 open", "4 blocked");
        assertThat(all.lines().get(0).get("id").getAsString()).isEqualTo("q1");
    }

    private static JsonObject one(String pad, String... more) {
        Object[] words = {"ask", "-d", DESIGN, "-n", SAMPLE, "-p", pad, "--json"};
        Object[] all = new Object[words.length + more.length];
        System.arraycopy(words, 0, all, 0, words.length);
        System.arraycopy(more, 0, all, words.length, more.length);
        return CommandRun.of(all).json();
    }

    /** A terminal's width must not break them. */
    @Test
    void linesOfJsonAreNotBroken() {
        assertThat(TextStreams.printsJson(new String[] {"ask", "--batch", "f.csv"})).isTrue();
        assertThat(TextStreams.printsJson(new String[] {"ask", "--batch=f.csv"})).isTrue();
        assertThat(TextStreams.printsJson(new String[] {"survey", "--json"})).isTrue();
        assertThat(TextStreams.printsJson(new String[] {"ask", "-p", "J1.2"})).isFalse();
    }

    @Test
    void anEarlierDesignIsForOneQuestionOnly() throws Exception {
        Answered run = ask("net,pad\n" + SAMPLE + ",J1.2\n", "--was", DESIGN);
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("--was: expected it without --batch, found --batch");
    }

    @Test
    void linesOfJsonMayStateEdits() throws Exception {
        Answered all =
                ask(
                        """
                        {"net": "pump/level/sample[1]", "pad": "x0y5/pad[0]", "corner": "slow"}
                        {"net": "pump/level/sample[1]", "pad": "x0y5/pad[0]", "id": "without", \
                        "whatIf": ["remove net alarm/beep"]}
                        {"net": "pump/level/sample[1]", "pad": "x0y5/pad[0]", \
                        "whatIf": ["remove net nothing"]}
                        """);
        assertThat(all.words()).containsExactly("1 blocked", "2 open", "3 error");
        assertThat(all.lines().get(1).get("id").getAsString()).isEqualTo("without");
        assertThat(
                        ask("net,pad,what-if\n" + SAMPLE + ",x0y5/pad[0],remove net alarm/beep\n")
                                .words())
                .containsExactly("2 open");
    }

    @Test
    void aPatternGivesALineForEachNetAndPad() throws Exception {
        Answered all = ask("net,pad\npump/level/sample[?],header J1\n", "--brief");
        assertThat(all.lines()).hasSize(8);
        assertThat(all.words()).allMatch(w -> w.startsWith("2 "));
        assertThat(all.answer(0).get("net").getAsString()).isEqualTo("pump/level/sample[0]");
    }

    @Test
    void aFaultIsALineAndTheNextQuestionIsAnswered() throws Exception {
        Answered all =
                ask(
                        "net,pad\nnothing,J1.2\n"
                                + SAMPLE
                                + ",J9.9\n"
                                + SAMPLE
                                + "\n"
                                + SAMPLE
                                + ",\n\""
                                + SAMPLE
                                + ",J1.2\n"
                                + SAMPLE
                                + ",J1.2\n");
        assertThat(all.words())
                .containsExactly("2 error", "3 error", "4 error", "5 error", "6 error", "7 open");
        assertThat(all.code()).isEqualTo(2);
        assertThat(all.error(1).get("source").getAsString()).isEqualTo("pad");
        assertThat(all.error(2).get("expected").getAsString()).contains("2 fields");
        Answered json =
                ask(
                        """
                        {"net": "pump/level/sample[1]"}
                        {"net": "pump/level/sample[1]", "pad": "J1.2"} {}
                        {"net": "pump/level/sample[1]", "pad": 7}
                        net,pad
                        {"net": "pump/level/sample[1]", "pad": "J1.2"}
                        """);
        assertThat(json.words())
                .containsExactly("1 error", "2 error", "3 error", "4 error", "5 open");
    }

    @Test
    void aHeaderAtFaultEndsTheRun() throws Exception {
        assertThat(ask("net,pda\n").err()).contains("line 1: expected").contains("\"pad\"");
        assertThat(ask("net,pad,net\n").err()).contains("each column once");
        assertThat(ask("pad\n").err()).contains("a column \"net\"");
        assertThat(ask("").code()).isZero();
    }

    @Test
    void standardInputIsReadToo() {
        InputStream before = System.in;
        try {
            String text = "net,pad\n" + SAMPLE + ",J1.2\n";
            System.setIn(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
            Answered all = Answered.of(CommandRun.of("ask", "-d", DESIGN, "--batch", "-"));
            assertThat(all.words()).containsExactly("2 open");
        } finally {
            System.setIn(before);
        }
    }

    @Test
    void oneQuestionAndManyExcludeEachOther() throws Exception {
        assertThat(ask("net,pad\n", "--net", SAMPLE).err()).contains("--batch: expected");
        assertThat(CommandRun.of("ask", "-d", DESIGN, "-n", SAMPLE, "-p", "J1.2", "--brief").code())
                .isEqualTo(2);
        assertThat(CommandRun.of("ask", "-d", DESIGN, "-n", SAMPLE).err())
                .contains("Missing required option: '--pad=PAD'");
    }

    /** So nothing is collected, however many questions there are. */
    @Test
    void eachAnswerIsPrintedBeforeTheNextLineIsRead() throws Exception {
        StringWriter printed = new StringWriter();
        int count = 500;
        Reader text =
                new Reader() {
                    private final String all =
                            IntStream.range(0, count)
                                    .mapToObj(i -> SAMPLE + ",J1.2\n")
                                    .collect(Collectors.joining("", "net,pad\n", ""));
                    private int next;
                    private int lines;

                    @Override
                    public int read(char[] chars, int offset, int length) {
                        if (next == all.length()) {
                            return -1;
                        }
                        long answered = printed.toString().lines().count();
                        assertThat(answered).isGreaterThanOrEqualTo(lines - 1);
                        chars[offset] = all.charAt(next++);
                        lines += chars[offset] == '\n' ? 1 : 0;
                        printed.getBuffer().setLength(0);
                        printed.append("x\n".repeat((int) answered));
                        return 1;
                    }

                    @Override
                    public void close() {}
                };
        BatchRun run =
                new BatchRun(
                        DesignReader.read(DESIGN, Progress.NONE),
                        new BatchRun.Manner(
                                SearchEngineKind.OWN,
                                Corner.SLOW,
                                WantedDriver.NONE,
                                SearchLimits.USUAL,
                                () -> Progress.NONE,
                                true),
                        new PrintWriter(printed));
        assertThat(run.answer(new QuestionLines("many", text), new Source.OfText("many", "")))
                .isZero();
        assertThat(printed.toString().lines()).hasSize(count);
    }
}
