package padward.handover;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import padward.design.Design;
import padward.design.board.Attachment;
import padward.design.board.BoardHeader;
import padward.design.board.PadWiring;

/**
 * Headers of a board as its file states them, seen from the stated side, with the pins of a page's
 * channels marked: pin 1 lower left and square. A marked pin is filled and labelled with its
 * channel, so that it is recognized without colour; ground pins have a G. A header of which the
 * file states no geometry is not drawn: a wrong drawing puts a lead on a supply.
 */
final class HeaderDrawing {
    private static final double PITCH = 26;
    private static final double PIN = 19;
    private static final double MARGIN = 6;
    private static final double LABELS = 15;
    private static final String INK = "#1c2126";
    private static final String FAINT = "#5f6670";
    private static final String BODY = "#efece5";
    private static final String WIRED = "#ffffff";
    private static final String OPEN = "#d8d4cb";
    private static final String MARKED = "#0072B2";

    private HeaderDrawing() {}

    /** A drawing for each header that a page's channels are on. */
    static List<Drawing> of(BenchSheet.Page page, Design design) {
        Map<String, Map<Integer, Integer>> channels = new LinkedHashMap<>();
        for (BenchSheet.Line line : page.lines()) {
            line.place()
                    .filter(p -> isNumber(p.pin()))
                    .ifPresent(
                            p ->
                                    channels.computeIfAbsent(p.name(), n -> new LinkedHashMap<>())
                                            .put(Integer.parseInt(p.pin()), line.channel()));
        }
        List<Drawing> result = new ArrayList<>();
        channels.forEach(
                (name, marks) ->
                        design.board()
                                .findHeader(name)
                                .filter(h -> marks.keySet().stream().allMatch(p -> p <= h.pins()))
                                .ifPresent(h -> result.add(header(h, marks, wired(design, name)))));
        return result;
    }

    private static boolean isNumber(String pin) {
        return pin.matches("[1-9]\\d{0,2}");
    }

    /** Pins that the board's description wires to some pad. */
    private static Set<Integer> wired(Design design, String header) {
        Set<Integer> pins = new LinkedHashSet<>();
        for (PadWiring wiring : design.board().wirings()) {
            for (Attachment attached : wiring.attachments()) {
                if (attached.name().equals(header) && isNumber(attached.pin())) {
                    pins.add(Integer.parseInt(attached.pin()));
                }
            }
        }
        return pins;
    }

    private static Drawing header(
            BoardHeader header, Map<Integer, Integer> marks, Set<Integer> wired) {
        double width = header.columns() * PITCH + 2 * MARGIN;
        double top = LABELS;
        double height = header.rows() * PITCH + 2 * MARGIN;
        List<Drawing.Shape> shapes = new ArrayList<>();
        shapes.add(new Drawing.Box(0.5, top, width - 1, height, 4, BODY, FAINT, 1));
        for (int pin = 1; pin <= header.pins(); pin++) {
            boolean below = header.rowOf(pin) == 0;
            double x = MARGIN + header.columnOf(pin) * PITCH + (PITCH - PIN) / 2;
            double y = top + MARGIN + (header.rows() - 1 - header.rowOf(pin)) * PITCH;
            y += (PITCH - PIN) / 2;
            boolean marked = marks.containsKey(pin);
            boolean ground = header.grounds().contains(String.valueOf(pin));
            String fill = marked ? MARKED : wired.contains(pin) ? WIRED : OPEN;
            double round = pin == 1 ? 0 : PIN / 2;
            shapes.add(
                    new Drawing.Box(
                            x, y, PIN, PIN, round, fill, marked ? INK : FAINT, marked ? 2 : 0.8));
            shapes.add(
                    new Drawing.Words(
                            x + PIN / 2,
                            y + PIN / 2 + 3.2,
                            9,
                            marked || ground,
                            marked ? "#ffffff" : ground ? INK : FAINT,
                            ground ? "G" : String.valueOf(pin)));
            if (marked) {
                double label = below ? top + height + LABELS - 4 : top - 4;
                shapes.add(
                        new Drawing.Words(
                                x + PIN / 2, label, 9.5, true, INK, "ch " + marks.get(pin)));
            }
        }
        String side = header.seen() == BoardHeader.Side.TOP ? "top" : "bottom";
        String name = header.name() + ", seen from the " + side + " of the board";
        return new Drawing(name, width, height + 2 * LABELS, shapes);
    }
}
