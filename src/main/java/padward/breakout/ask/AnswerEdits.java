package padward.breakout.ask;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.change.Edit;
import padward.design.Attachment;
import padward.design.Design;
import padward.design.PadWiring;
import padward.fabric.DriverSetting;
import padward.fabric.Pad;

/** The edits that make an answer come true: make room, then bring the net out. */
public final class AnswerEdits {
    private AnswerEdits() {}

    /** Whether the net is on the pad already, so that there is nothing to bring out. */
    public static boolean isThere(Answer.FreeRoute free) {
        return free.route().branchHop() == free.route().hops().size() - 1;
    }

    /** The edits of an answer with a route over what is free. */
    public static List<Edit> of(Answer.FreeRoute free) {
        List<Edit> edits = new ArrayList<>();
        free.disconnected().ifPresent(l -> edits.add(l.toEdit()));
        return broughtOut(free.question(), edits, free.route());
    }

    /** The edits of one of a blocked answer's options to unblock. */
    public static List<Edit> of(Answer.Blocked blocked, WhyBlocked.Option option) {
        List<Edit> edits = new ArrayList<>(option.option().edits(blocked.disconnected()));
        return broughtOut(blocked.question(), edits, option.route());
    }

    /**
     * Adds the route itself. A port that only reads the pad is disconnected too, together with the
     * net that it drives.
     */
    private static List<Edit> broughtOut(Question question, List<Edit> edits, Route route) {
        Design design = question.design();
        design.findPortOn(question.pad())
                .map(p -> new Edit.DisconnectPort(p.name()))
                .filter(e -> !edits.contains(e))
                .ifPresent(
                        go -> {
                            edits.removeIf(e -> isDrivenBy(design, e, go.port()));
                            edits.add(0, go);
                        });
        edits.add(breakOut(question, route));
        return edits;
    }

    private static boolean isDrivenBy(Design design, Edit edit, String port) {
        return edit instanceof Edit.RemoveNet free
                && design.findNet(free.net())
                        .map(n -> design.textOf(n.driver()).equals("port " + port))
                        .orElse(false);
    }

    /** The edit that brings a net out by a route, under a port name that the design has not yet. */
    public static Edit breakOut(Question question, Route route) {
        List<Integer> vertices = new ArrayList<>();
        route.hops().stream().skip(route.branchHop()).forEach(h -> vertices.add(h.vertex()));
        return new Edit.BreakOut(
                question.net().name(),
                portName(question),
                question.padValue().name(),
                route.setting().map(DriverSetting::name).orElse(""),
                vertices);
    }

    /** A name that says which pad it is, and that no port of the design has. */
    private static String portName(Question question) {
        Design design = question.design();
        Pad pad = question.padValue();
        Optional<String> header =
                design.board()
                        .findWiring(question.pad())
                        .flatMap(PadWiring::findLeadPlace)
                        .map(Attachment::toShortText);
        String place = header.orElse(pad.packagePin().isEmpty() ? pad.name() : pad.packagePin());
        String name = "out_" + place;
        int number = 2;
        String unique = name;
        while (isTaken(design, unique)) {
            unique = name + "_" + number++;
        }
        return unique;
    }

    private static boolean isTaken(Design design, String name) {
        return design.ports().stream().anyMatch(p -> p.name().equals(name));
    }
}
