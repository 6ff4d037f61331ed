package padward.watch.answer;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import padward.breakout.text.AnswerText;
import padward.change.Edit;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitElement;
import padward.watch.place.WatchResult;

/** What came of a watch circuit, in words. */
public final class WatchText {
    private WatchText() {}

    /** The result as a few sentences. */
    public static String sentence(WatchResult result) {
        if (result instanceof WatchResult.DoesNotFit not) {
            return (not.proven() ? "Does not fit: " : "No place found: ") + not.text();
        }
        WatchResult.Placed placed = (WatchResult.Placed) result;
        String pads =
                placed.legs().stream()
                        .map(l -> AnswerText.padText(l.answer().question()) + named(l, placed))
                        .collect(Collectors.joining(" and "));
        return "Fits: "
                + cells(placed.question().circuit())
                + " on free sites, out on "
                + pads
                + ". "
                + placed.question().circuit().function()
                + moved(placed);
    }

    /** What is moved to make room, as a sentence after others. */
    private static String moved(WatchResult.Placed placed) {
        return placed.moves().isEmpty()
                ? ""
                : " To make room: " + String.join(", ", moves(placed)) + ".";
    }

    /** What is moved, each move once: a net may make room for the cells, then at the pad too. */
    public static List<String> moves(WatchResult.Placed placed) {
        return placed.moves().stream().map(Edit::toText).distinct().toList();
    }

    private static String named(WatchResult.Leg leg, WatchResult.Placed placed) {
        return placed.legs().size() > 1 ? " (" + leg.output() + ")" : "";
    }

    /** That it fits once things are moved, and which; for a result that has moves. */
    public static String fitsMoving(WatchResult.Placed placed) {
        return "it fits: " + String.join(", ", moves(placed)) + ".";
    }

    /** How many cells of which sort: {@code 3 lookup tables and 1 register}. */
    public static String cells(Circuit circuit) {
        long registers =
                circuit.elements().stream()
                        .filter(e -> e instanceof CircuitElement.Register)
                        .count();
        long tables = circuit.elements().size() - registers;
        List<String> parts = new ArrayList<>();
        if (tables > 0) {
            parts.add(tables + (tables == 1 ? " lookup table" : " lookup tables"));
        }
        if (registers > 0) {
            parts.add(registers + (registers == 1 ? " register" : " registers"));
        }
        return parts.isEmpty() ? "no cells" : String.join(" and ", parts);
    }

    /** How much later than the nets the first output is, as a sentence. */
    public static String latency(Circuit circuit) {
        if (circuit.latency() == 0) {
            return "No register lies between the nets and the pin: the delays are those below.";
        }
        return "The pin is "
                + circuit.latency()
                + (circuit.latency() == 1 ? " cycle" : " cycles")
                + " of "
                + String.join(" and ", circuit.clocks())
                + " late.";
    }

    /** What to heed about the circuit itself: its own cautions, and what is not known. */
    public static List<String> cautions(WatchResult.Placed placed) {
        List<String> result = new ArrayList<>(placed.question().circuit().cautions());
        if (placed.timing().unknownTables()) {
            result.add(
                    "The fabric states no delay through its lookup tables: the delays here lack"
                            + " it.");
        }
        if (placed.timing().unknownRegisters()) {
            result.add(
                    "The fabric states no delay from clock to output of its registers: the delays"
                            + " here lack it.");
        }
        return result;
    }
}
