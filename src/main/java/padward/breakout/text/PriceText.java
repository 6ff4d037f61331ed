package padward.breakout.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import padward.breakout.ask.Caution;
import padward.breakout.ask.Price;
import padward.design.PortDirection;
import padward.unblock.move.DelayChange;
import padward.unblock.release.LostEndpoint;

/** Prices in words. */
public final class PriceText {
    private PriceText() {}

    /** What it costs, as sentences; one that says so where it costs nothing. */
    public static String sentences(Price price) {
        List<String> parts = new ArrayList<>(losses(price));
        if (!price.moved().isEmpty()) {
            List<String> moved = price.moved().stream().map(PriceText::moved).toList();
            parts.add("Rerouted: " + WhyText.named(moved) + ".");
        }
        if (price.lost().isEmpty() && price.follows().isEmpty() && price.drives().isEmpty()) {
            parts.add(0, "Nothing loses its signal.");
        }
        return String.join(" ", parts);
    }

    /** Who loses what, and what on the board follows or drives: a sentence each. */
    public static List<String> losses(Price price) {
        List<String> parts = new ArrayList<>();
        if (!price.ports().isEmpty()) {
            parts.add(ports(price) + ".");
        }
        Set<String> named = new TreeSet<>();
        price.ports().forEach(p -> named.add(p.name()));
        List<String> others =
                price.lost().stream()
                        .filter(
                                e ->
                                        e.kind() != LostEndpoint.Kind.PORT
                                                || !named.contains(e.name()))
                        .map(LostEndpoint::toText)
                        .toList();
        if (!others.isEmpty()) {
            parts.add("Would lose signal: " + WhyText.named(others) + ".");
        }
        parts.addAll(onTheBoard(price));
        return parts;
    }

    /** What on the board follows the net or drives the pad, a sentence each. */
    public static List<String> onTheBoard(Price price) {
        List<String> parts = new ArrayList<>();
        price.follows().forEach(f -> parts.add(follows(f) + "."));
        price.drives().forEach(d -> parts.add(drives(d) + "."));
        return parts;
    }

    /** Who loses the pad: {@code Port motor loses its pad}. */
    private static String ports(Price price) {
        List<String> names = price.ports().stream().map(PriceText::withNets).toList();
        return names.size() == 1
                ? "Port " + names.get(0) + " loses its pad"
                : "Ports " + WhyText.named(names) + " lose their pads";
    }

    /** Of a port that goes both ways, both nets: its name alone does not say what stops. */
    private static String withNets(Price.LosingPort port) {
        return port.out().isPresent() && port.in().isPresent()
                ? port.name()
                        + " (out net "
                        + port.out().get()
                        + ", in net "
                        + port.in().get()
                        + ")"
                : port.name();
    }

    /** One part that follows, as a clause: {@code U7 pin 4 will follow pump/level/sample[1]}. */
    public static String follows(Price.Follower follower) {
        return part(follower.part().name(), follower.part().pin())
                + " will follow "
                + follower.net();
    }

    private static String drives(Price.Opponent opponent) {
        return part(opponent.part().name(), opponent.part().pin())
                + " on the board drives pad "
                + opponent.pad()
                + " against the chip";
    }

    private static String part(String name, String pin) {
        return pin.isEmpty() ? name : name + " pin " + pin;
    }

    private static String moved(DelayChange change) {
        return "net "
                + change.net()
                + " ("
                + change.sink()
                + " "
                + change.after().toText()
                + ", before "
                + change.before().toText()
                + ")";
    }

    /** The price in a few words, for a column; empty where it costs nothing. */
    public static String brief(Price price) {
        List<String> parts = new ArrayList<>();
        price.drives().forEach(d -> parts.add(d.part().toShortText() + " drives"));
        price.follows().forEach(f -> parts.add(f.part().toShortText() + " follows"));
        price.ports().forEach(p -> parts.add("port " + p.name()));
        return String.join(", ", parts);
    }

    /** What has to be accepted before something is kept, as words in files and options. */
    public static List<String> words(Set<Caution.Kind> kinds) {
        return kinds.stream().map(Caution.Kind::label).toList();
    }

    /** What a user accepts who keeps it: {@code I accept that U7 pin 4 will follow x}. */
    public static String acceptance(Price price) {
        return "I accept that " + consequences(price) + ".";
    }

    /** What has to be accepted, as a clause. */
    public static String consequences(Price price) {
        List<String> parts = new ArrayList<>();
        price.drives().forEach(d -> parts.add(drives(d)));
        price.follows().forEach(f -> parts.add(follows(f)));
        price.ports().stream()
                .filter(p -> p.direction() != PortDirection.OUT)
                .forEach(p -> parts.add("port " + p.name() + " no longer reads the board"));
        return String.join(", and that ", parts);
    }
}
