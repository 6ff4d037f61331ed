package padward.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import padward.base.Html;
import padward.breakout.BenchSheet;
import padward.design.Attachment;
import padward.design.Design;
import padward.design.PadWiring;
import padward.fabric.DriverSetting;

/** A bench sheet as one page of HTML, to be read on screen or printed; needs no other file. */
final class SheetHtml {
    private static final int PIN = 26;
    private static final String STYLE =
            """
            body { font: 11pt/1.35 sans-serif; color: #1c2126; max-width: 60rem; margin: 2rem auto;
                   padding: 0 1rem; }
            h1 { font-size: 1.5rem; margin: 0 0 .2rem; } h2 { font-size: 1.1rem; margin: 1.4rem 0 .4rem; }
            table { border-collapse: collapse; width: 100%; }
            th, td { text-align: left; padding: .25rem .5rem; border-bottom: 1px solid #b9b2a7; }
            td.n { text-align: right; white-space: nowrap; }
            .cautions { border: 2px solid #D55E00; padding: .2rem 1rem; }
            svg { margin-right: 2rem; } .faint { color: #5f6670; }
            @media print { body { margin: 0; max-width: none; font-size: 9.5pt; } }
            """;

    private final StringBuilder out = new StringBuilder();

    private SheetHtml() {}

    /** The page. */
    static String of(BenchSheet sheet, Design design, String when) {
        SheetHtml html = new SheetHtml();
        html.write(sheet, design, when);
        return html.out.toString();
    }

    private void write(BenchSheet sheet, Design design, String when) {
        out.append("<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/>");
        out.append("<title>Bench sheet, ").append(escaped(sheet.title())).append("</title>");
        out.append("<style>").append(STYLE).append("</style></head><body>\n");
        out.append("<h1>Bench sheet: ").append(escaped(sheet.title())).append("</h1>\n");
        String board = sheet.board().isEmpty() ? "no board described" : "board " + sheet.board();
        out.append("<p class=\"faint\">").append(escaped(board + ", " + when)).append("</p>\n");
        cautions(sheet.cautions());
        out.append("<h2>Where each signal is</h2>\n<table id=\"lines\"><thead><tr>");
        for (String head :
                List.of(
                        "place",
                        "net",
                        "pad",
                        "package pin",
                        "driver",
                        "outside the pad",
                        "at the instrument",
                        "correct by")) {
            out.append("<th>").append(head).append("</th>");
        }
        out.append("</tr></thead><tbody>\n");
        sheet.lines().forEach(this::line);
        out.append("</tbody></table>\n");
        out.append(
                "<p class=\"faint\">Delays count from the net's driver, from the fast to the slow"
                        + " corner. Add the correction to a channel's time stamps; what is left between"
                        + " channels is half of each range.</p>\n");
        headers(sheet, design);
        out.append("<h2>To restore the design</h2>\n<ol id=\"restore\">");
        sheet.restore().forEach(step -> out.append("<li>").append(escaped(step)).append("</li>"));
        out.append("</ol>\n</body></html>\n");
    }

    private void cautions(List<String> cautions) {
        out.append("<div class=\"cautions\"><h2>Before you connect</h2><ul id=\"cautions\">");
        cautions.forEach(c -> out.append("<li>").append(escaped(c)).append("</li>"));
        out.append("</ul></div>\n");
    }

    private void line(BenchSheet.Line line) {
        out.append("<tr>");
        cell(line.place().map(SheetHtml::place).orElse("no place known"));
        cell(line.net());
        cell(line.pad());
        cell(line.packagePin());
        cell(line.setting().map(SheetHtml::setting).orElse(""));
        number(line.atPad().toText());
        number(line.atInstrument().toText());
        number(String.format("%+.3f ns", line.correctionPs() / 1000.0));
        out.append("</tr>\n");
    }

    private static String place(Attachment place) {
        return place.toShortText();
    }

    private static String setting(DriverSetting setting) {
        return setting.name()
                + ", "
                + setting.standard()
                + ", "
                + setting.millivolts()
                + " mV, "
                + setting.milliamps()
                + " mA";
    }

    private void cell(String text) {
        out.append("<td>").append(escaped(text)).append("</td>");
    }

    private void number(String text) {
        out.append("<td class=\"n\">").append(escaped(text)).append("</td>");
    }

    /** Each header that a line is on, with all pins that the board's description gives it. */
    private void headers(BenchSheet sheet, Design design) {
        Map<String, Map<String, String>> netByPin = new LinkedHashMap<>();
        for (BenchSheet.Line line : sheet.lines()) {
            line.place()
                    .filter(p -> !p.pin().isEmpty())
                    .ifPresent(
                            p ->
                                    netByPin.computeIfAbsent(p.name(), n -> new LinkedHashMap<>())
                                            .put(p.pin(), line.net()));
        }
        netByPin.forEach((header, nets) -> header(header, nets, pins(design, header)));
    }

    private static TreeSet<Integer> pins(Design design, String header) {
        TreeSet<Integer> pins = new TreeSet<>();
        for (PadWiring wiring : design.board().wirings()) {
            for (Attachment attached : wiring.attachments()) {
                if (attached.name().equals(header) && attached.pin().matches("\\d{1,4}")) {
                    pins.add(Integer.parseInt(attached.pin()));
                }
            }
        }
        return pins;
    }

    /** Pins in two rows, odd ones below, as far as they are numbered so; used ones filled. */
    private void header(String header, Map<String, String> nets, TreeSet<Integer> pins) {
        if (pins.isEmpty()) {
            return;
        }
        int columns = (pins.last() + 1) / 2;
        out.append("<h2>").append(escaped(header)).append("</h2>\n");
        out.append(
                String.format(
                        "<svg width=\"%d\" height=\"%d\" role=\"img\" aria-label=\"pins of %s\">",
                        columns * PIN + 8, 2 * PIN + 8, escaped(header)));
        for (int pin = 1; pin <= 2 * columns; pin++) {
            int x = 4 + (pin - 1) / 2 * PIN;
            int y = 4 + (pin % 2 == 0 ? 0 : PIN);
            boolean used = nets.containsKey(String.valueOf(pin));
            out.append(
                    String.format(
                            "<rect x=\"%d\" y=\"%d\" width=\"%d\" height=\"%d\" fill=\"%s\""
                                    + " stroke=\"#5f6670\"%s/>",
                            x,
                            y,
                            PIN - 4,
                            PIN - 4,
                            used ? "#cfe4f2" : "#ffffff",
                            used ? " stroke-width=\"3\"" : ""));
            out.append(
                    String.format(
                            "<text x=\"%d\" y=\"%d\" font-size=\"10\" text-anchor=\"middle\">%d"
                                    + "</text>",
                            x + (PIN - 4) / 2, y + (PIN - 4) / 2 + 4, pin));
        }
        out.append(
                "</svg>\n<p class=\"faint\">Pin 1 lower left, two rows, if the board's own drawing"
                        + " does not say otherwise.</p>\n<ul>");
        nets.forEach(
                (pin, net) ->
                        out.append("<li>")
                                .append(escaped(header + "." + pin + ": " + net))
                                .append("</li>"));
        out.append("</ul>\n");
    }

    private static String escaped(String text) {
        return Html.escaped(text);
    }
}
