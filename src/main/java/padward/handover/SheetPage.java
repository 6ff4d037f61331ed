package padward.handover;

import com.samskivert.mustache.Mustache;
import com.samskivert.mustache.Template;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import padward.base.Volts;
import padward.base.Xml;
import padward.breakout.ask.BankOutputs;
import padward.breakout.ask.Cautions;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.design.Design;
import padward.design.board.Attachment;
import padward.fabric.pad.DriverSetting;
import padward.timing.Chain;
import padward.timing.ExternalLineDelay;
import padward.timing.PadLoad;
import padward.timing.ValidTimes;

/**
 * A bench sheet as HTML that needs no other file, for the screen or for printing. It is also
 * well-formed XML, from which the PDF is made, so both have the same content.
 */
public final class SheetPage {
    /** Sizes of paper. */
    public enum Paper {
        /** ISO 216. */
        A4,
        /** ANSI/ASME Y14.1 size A. */
        LETTER;

        private String css() {
            return this == A4 ? "A4" : "letter";
        }
    }

    /** Maximum width of a drawing, points: next to the chain of delays, and alone. */
    private static final double NEXT_TO_CHAIN = 290;

    private static final double ALONE = 500;

    /** The longest list of net names that is shown in a group's headline. */
    private static final int LONGEST_NETS = 60;

    private static final Template TEMPLATE = template();

    private final BenchSheet sheet;
    private final List<Drawing> drawings = new ArrayList<>();
    private final String text;

    private SheetPage(BenchSheet sheet, Design design, String made, Paper paper, boolean inPdf) {
        this.sheet = sheet;
        List<Map<String, Object>> pages = new ArrayList<>();
        for (BenchSheet.Page page : sheet.pages()) {
            pages.add(page(page, design, inPdf));
            addValid(page, sheet.valid(), pages.get(pages.size() - 1));
        }
        if (!pages.isEmpty()) {
            pages.get(pages.size() - 1).put("last", true);
        }
        Map<String, Object> model = new HashMap<>();
        model.put("design", sheet.title());
        model.put("designInCss", sheet.title().replaceAll("[^\\p{L}\\p{N} ._-]", " "));
        model.put("fabric", sheet.fabric());
        model.put("board", sheet.board().isEmpty() ? "not described" : sheet.board());
        model.put("made", made);
        model.put("paper", paper.css());
        model.put("pages", pages);
        model.put("isEmpty", pages.isEmpty() && sheet.missing().isEmpty());
        model.put("hasMissing", !sheet.missing().isEmpty());
        model.put("missing", texts(sheet.missing()));
        this.text = Xml.legal(TEMPLATE.execute(model));
    }

    private static Template template() {
        try (Reader in =
                new InputStreamReader(
                        SheetPage.class.getResourceAsStream("sheet.mustache"),
                        StandardCharsets.UTF_8)) {
            return Mustache.compiler().escapeHTML(true).emptyStringIsFalse(true).compile(in);
        } catch (IOException fault) {
            throw new UncheckedIOException("the sheet's own template cannot be read", fault);
        }
    }

    /**
     * The page in HTML.
     *
     * @param design the design with the ledger applied
     * @param made when the sheet is made, in words
     */
    public static String html(BenchSheet sheet, Design design, String made, Paper paper) {
        return new SheetPage(sheet, design, made, paper, false).text;
    }

    /** The page with its drawings as objects, by number. */
    static SheetPage forPdf(BenchSheet sheet, Design design, String made, Paper paper) {
        return new SheetPage(sheet, design, made, paper, true);
    }

    /** The page's text. */
    String text() {
        return text;
    }

    /** The drawings that the objects refer to. */
    List<Drawing> drawings() {
        return drawings;
    }

    private Map<String, Object> page(BenchSheet.Page page, Design design, boolean inPdf) {
        Map<String, Object> model = new HashMap<>();
        List<Map<String, Object>> headers = new ArrayList<>();
        boolean single = page.lines().size() == 1;
        for (Drawing drawing : HeaderDrawing.of(page, design)) {
            double width = Math.min(drawing.width(), single ? NEXT_TO_CHAIN : ALONE);
            headers.add(
                    Map.of(
                            "name", drawing.name(),
                            "inPdf", inPdf,
                            "key", String.valueOf(drawings.size()),
                            "width", points(width),
                            "height", points(drawing.height() * width / drawing.width()),
                            "svg", inPdf ? "" : SvgDrawing.of(drawing, width)));
            drawings.add(drawing);
        }
        model.put("number", page.number());
        model.put("last", false);
        model.put("headline", headline(page));
        model.put("when", page.entry().when());
        model.put("who", page.entry().who());
        model.put("note", page.entry().note());
        model.put("hasNote", !page.entry().note().isBlank());
        model.put("hasAccepted", !page.entry().accepted().isEmpty());
        model.put(
                "accepted",
                page.entry().accepted().stream()
                        .map(LedgerEntry.Acceptance::toText)
                        .collect(Collectors.joining("; ")));
        model.put("hasLate", !page.lateTexts().isEmpty());
        model.put("late", String.join("; ", page.lateTexts()));
        model.put("cautions", page.cautions().stream().map(SheetPage::caution).toList());
        model.put("footer", Cautions.FOOTER);
        model.put("hasDrawings", !headers.isEmpty());
        model.put("drawings", headers);
        model.put("lines", page.lines().stream().map(SheetPage::line).toList());
        model.put(
                "anyMeasured",
                page.lines().stream().anyMatch(l -> l.lead().measured().isPresent()));
        model.put("between", between(sheet));
        model.put("hasChain", single);
        model.put("chain", single ? chain(page.lines().get(0)) : List.of());
        model.put("sum", single ? page.lines().get(0).atInstrument().toText() : "");
        model.put("seen", texts(InstrumentText.of(page.lines())));
        model.put("restore", texts(page.restore()));
        model.put("banks", texts(page.banks().stream().map(BankOutputs::toText).toList()));
        return model;
    }

    /** When the channels of a page are valid, if that was asked. */
    private static void addValid(
            BenchSheet.Page page, Optional<ValidTimes> valid, Map<String, Object> model) {
        List<String> lines = new ArrayList<>();
        valid.ifPresent(
                v -> {
                    Set<String> here =
                            page.lines().stream()
                                    .map(BenchSheet.Line::port)
                                    .collect(Collectors.toSet());
                    v.entries().stream()
                            .filter(e -> here.contains(e.key()))
                            .forEach(e -> lines.add(e.toText()));
                    if (!lines.isEmpty()) {
                        lines.addAll(v.advice());
                    }
                });
        model.put("hasValid", !lines.isEmpty());
        model.put("valid", texts(lines));
        model.put(
                "validHead",
                valid.map(v -> "rising edges of " + v.clock() + " on " + v.channel()).orElse(""));
    }

    private static String points(double length) {
        return String.format(Locale.ROOT, "%.1f", length);
    }

    private static List<Map<String, String>> texts(List<String> texts) {
        return texts.stream().map(t -> Map.of("text", t)).toList();
    }

    private static Map<String, Object> caution(Cautions.Shared shared) {
        return Map.of("text", shared.toText(), "serious", shared.caution().kind().isSerious());
    }

    private static String headline(BenchSheet.Page page) {
        BenchSheet.Line first = page.lines().get(0);
        if (page.lines().size() == 1) {
            return first.net()
                    + " on "
                    + first.place().map(Attachment::toShortText).orElse(first.pad());
        }
        String group = "Group of " + page.lines().size() + " channels";
        String nets = page.entry().net();
        return nets.length() > LONGEST_NETS ? group : group + ": " + nets;
    }

    private static Map<String, Object> line(BenchSheet.Line line) {
        Map<String, Object> model = new HashMap<>();
        model.put("channel", line.channel());
        model.put("pod", line.lead().pod());
        model.put("colour", line.lead().colour());
        model.put("hasColour", !line.lead().pod().isEmpty() && !line.lead().colour().isEmpty());
        model.put("leadName", line.lead().name());
        model.put(
                "place",
                line.place().map(Attachment::toShortText).orElse("no header or test point known"));
        model.put("boardNet", line.boardNet());
        model.put("net", line.net());
        model.put("pad", line.pad());
        model.put("packagePin", line.packagePin());
        model.put("polarity", line.polarity());
        model.put("standard", line.setting().map(DriverSetting::standard).orElse("unknown"));
        model.put("driver", line.setting().map(SheetPage::driver).orElse(""));
        model.put("instrument", line.atInstrument().toText());
        model.put("atPin", line.atPin().toText());
        model.put(
                "measured",
                line.lead().measured().map(m -> measured(line.takenPs(), m)).orElse(""));
        model.put("addToTime", String.format(Locale.ROOT, "%+.3f ns", line.addToTimePs() / 1000.0));
        return model;
    }

    private static String measured(long levelPs, LedgerLead.Measured measured) {
        return String.format(
                Locale.ROOT,
                "measured: %.3f ns ± %.3f ns",
                levelPs / 1000.0,
                measured.tolerancePs() / 1000.0);
    }

    private static String driver(DriverSetting setting) {
        return String.format(
                Locale.ROOT,
                "setting %s: %s, %d mA, %s slew",
                setting.name(),
                Volts.text(setting.millivolts()),
                setting.milliamps(),
                setting.slew());
    }

    /** What the delays were calculated with, and where the leads' lengths come from. */
    private static String between(BenchSheet sheet) {
        ExternalLineDelay external = sheet.external();
        return String.format(
                Locale.ROOT,
                "Calculated for %s, velocity factor %.2f, a connector of %.3f ns, "
                        + "and traces on a board with dielectric constant %.1f.%s",
                leads(sheet),
                external.velocity(),
                external.connectorPs() / 1000.0,
                external.dielectric(),
                loads(sheet));
    }

    /** Which lines' loads are not known, where load matters: a lighter one is never assumed. */
    private static String loads(BenchSheet sheet) {
        List<String> unknown = new ArrayList<>();
        for (BenchSheet.Line line : sheet.lines()) {
            PadLoad load = line.timing().chain().output().load();
            if (load.picofarads() > 0 && !load.known()) {
                unknown.add("" + line.channel());
            }
        }
        return unknown.isEmpty()
                ? ""
                : " Load not stated, so the rated load is taken: channel"
                        + (unknown.size() > 1 ? "s " : " ")
                        + String.join(", ", unknown)
                        + ".";
    }

    /** The leads' lengths: those of the ledger, by channel, and the sheet's own. */
    private static String leads(BenchSheet sheet) {
        Map<Double, List<String>> stated = new TreeMap<>();
        for (BenchSheet.Line line : sheet.lines()) {
            line.lead()
                    .metres()
                    .ifPresent(
                            m ->
                                    stated.computeIfAbsent(m, x -> new ArrayList<>())
                                            .add("" + line.channel()));
        }
        String own = LedgerLead.metresText(sheet.external().metres()) + " m";
        String origin =
                sheet.external().metres() > 0
                        ? ", as stated for this sheet"
                        : " (their length is not stated)";
        if (stated.isEmpty()) {
            return "leads of " + own + origin;
        }
        String ledger =
                stated.entrySet().stream()
                        .map(
                                e ->
                                        LedgerLead.metresText(e.getKey())
                                                + " m on channel"
                                                + (e.getValue().size() > 1 ? "s " : " ")
                                                + String.join(", ", e.getValue()))
                        .collect(Collectors.joining("; "));
        boolean all = sheet.lines().stream().allMatch(l -> l.lead().metres().isPresent());
        return "leads as the ledger states them ("
                + ledger
                + ")"
                + (all ? "" : ", others of " + own + origin);
    }

    private static List<Map<String, String>> chain(BenchSheet.Line line) {
        List<Map<String, String>> result = new ArrayList<>();
        for (Chain.Link link : line.timing().chain().links()) {
            result.add(Map.of("part", link.part().label(), "delay", link.delay().toText()));
        }
        return result;
    }
}
